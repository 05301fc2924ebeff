// Command daybreak answers a person bringing home an electric vehicle: what do
// I need to charge at home, can my house carry it, what will it cost?
//
//	daybreak serve   gRPC, REST and the chat page
//	daybreak chat    the same conversation in a terminal
//	daybreak quote   a quote from a file of facts
//	daybreak check   every data file, checked
//	daybreak import  a published file of vehicles or tariffs, in our own form
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	_ "time/tzdata" // a bare system has no time zones of its own

	"daybreak/internal/fault"

	"github.com/spf13/cobra"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr); err != nil {
		os.Exit(1)
	}
}

// run is the whole program: the house is wired top to bottom in the commands
// below it, and tests call it too. It has printed the error it returns.
func run(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) error {
	root := &cobra.Command{
		Use:           "daybreak",
		Short:         "Plans and prices home charging for an electric vehicle",
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          cobra.ArbitraryArgs, // judged below, to say what was meant
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownCommand(c, args[0])
			}
			return c.Help()
		},
	}
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetFlagErrorFunc(wrongFlag)
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(errs)
	root.AddCommand(serveCommand(), chatCommand(), quoteCommand(), checkCommand(), importCommand())
	err := root.ExecuteContext(ctx)
	if err != nil && !errors.Is(err, context.Canceled) {
		explain(errs, err)
	}
	return err
}

// explain prints each fault on a line of its own: where it is, what was given,
// what would do.
func explain(w io.Writer, err error) {
	all := fault.All(err)
	if len(all) == 0 {
		fmt.Fprintln(w, "daybreak:", err)
		return
	}
	for _, f := range all {
		fmt.Fprintln(w, "daybreak:", f)
	}
}
