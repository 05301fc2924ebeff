package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"daybreak/internal/charging"
	"daybreak/internal/fault"
	"daybreak/internal/tariff"
	"daybreak/internal/unit"

	"github.com/spf13/cobra"
)

func importCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "import",
		Short: "Turn a published file of vehicles or tariffs into our own form",
		Args:  cobra.ArbitraryArgs, // judged below, to say what was meant
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(c, args[0])
			}
			return c.Help()
		},
	}
	c.AddCommand(&cobra.Command{
		Use:   "vehicles FILE",
		Short: "Print vehicles as our own CSV; - reads standard input",
		Long: "FILE is the US fuel-economy vehicles file in its published columns, or our own CSV.\n" +
			"Cars without a plug are passed over. Each other row is printed, or named by line and column.\n" +
			"What a row does not tell stays empty.",
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			return fromFile(cmd, args[0], importVehicles)
		},
	}, &cobra.Command{
		Use:   "tariff FILE",
		Short: "Print tariffs as a shop's folder tariffs holds them; - reads standard input",
		Long: "FILE holds rates in the US utility-rate format, as JSON: one, a list, or an object with items.\n" +
			"Each is printed as YAML, or named by its field. Keep the print as a .yaml file in a shop's folder tariffs.",
		Args: oneFile,
		RunE: func(cmd *cobra.Command, args []string) error {
			return fromFile(cmd, args[0], importTariffs)
		},
	})
	return c
}

func oneFile(_ *cobra.Command, args []string) error {
	if len(args) != 1 {
		return fault.Invalid("FILE", fmt.Sprintf("%d files", len(args)), "one file, or - for standard input")
	}
	return nil
}

// fromFile opens a file, or takes standard input for "-".
func fromFile(cmd *cobra.Command, file string, each func(from io.Reader, file string, out, errs io.Writer) error) error {
	if file == "-" {
		return each(cmd.InOrStdin(), "standard input", cmd.OutOrStdout(), cmd.ErrOrStderr())
	}
	f, err := os.Open(file)
	if err != nil {
		return because(fault.Invalid("FILE", file, "a readable file, or - for standard input"), err)
	}
	defer f.Close()
	return each(f, file, cmd.OutOrStdout(), cmd.ErrOrStderr())
}

func importVehicles(from io.Reader, file string, out, errs io.Writer) error {
	priors, err := charging.LoadPriors(charging.Embedded())
	if err != nil {
		return err
	}
	got, err := charging.ReadListed(from, file, priors)
	if err != nil {
		return err
	}
	for _, f := range got.Refused {
		explain(errs, f)
	}
	fmt.Fprintf(errs, "daybreak: %d vehicles, %d refused\n", len(got.Listed), len(got.Refused))
	if len(got.Listed) == 0 {
		return fault.InFile(file, 0, "", "no vehicle", "at least one row of a plug-in car")
	}
	return charging.WriteListed(out, got.Listed)
}

func importTariffs(from io.Reader, file string, out, errs io.Writer) error {
	dollars, _ := unit.CurrencyOf("USD", 2) // the format's own
	got, refused := tariff.ReadPublished(from, file, dollars)
	if len(got) == 0 && refused != nil {
		return refused
	}
	wrote, err := tariff.Write(out, file, got)
	if refused = errors.Join(refused, err); refused != nil {
		explain(errs, refused)
	}
	fmt.Fprintf(errs, "daybreak: %d tariffs, %d faults\n", wrote, len(fault.All(refused)))
	if wrote == 0 {
		return fault.InFile(file, 0, "", "no tariff", "at least one rate without demand charges")
	}
	return nil
}
