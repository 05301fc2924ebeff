package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/band"
	"daybreak/internal/document"
	"daybreak/internal/service"
	"daybreak/internal/service/access"
	"daybreak/internal/service/wire"
	"daybreak/internal/shop"
	"daybreak/internal/store/embedded"

	"github.com/google/uuid"
	"github.com/spf13/cobra"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
)

func chatCommand() *cobra.Command {
	var asOf, folder string
	c := &cobra.Command{
		Use:   "chat",
		Short: "Hold the conversation in a terminal; works by pipe",
		Args:  noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			books, err := openBooks(folder)
			if err != nil {
				return err
			}
			return chat(cmd, books, asOf)
		},
	}
	c.Flags().StringVar(&asOf, "as-of", "", "calendar date of the quote, default today at the shop")
	c.Flags().StringVar(&folder, "shop", "", "folder with a shop's books, default the demo shop")
	return c
}

// chat runs the same service as serve, without a port and on a store that goes
// when the conversation ends.
func chat(cmd *cobra.Command, books *shop.Books, asOf string) error {
	printer, err := newPrinter(books)
	if err != nil {
		return err
	}
	dir, err := os.MkdirTemp("", "daybreak-chat-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	kept, err := embedded.Open(embedded.Config{Dir: dir})
	if err != nil {
		return err
	}
	defer kept.Close()
	keys, err := access.OpenKeyFile(dir)
	if err != nil {
		return err
	}
	server, err := service.New(service.Config{Books: books, Store: kept, Keys: keys, Policy: access.Policy{OpenShop: books.ID}})
	if err != nil {
		return err
	}
	defer server.Stop(time.Second)
	t := &talk{
		in: bufio.NewScanner(cmd.InOrStdin()), out: cmd.OutOrStdout(),
		books: books, printer: printer, asOf: asOf,
		intake: daybreakv1.NewIntakeServiceClient(server.Channel()),
	}
	return t.run(cmd.Context())
}

// talk is one conversation in a terminal.
type talk struct {
	in      *bufio.Scanner
	out     io.Writer
	books   *shop.Books
	printer *document.Printer
	asOf    string
	intake  daybreakv1.IntakeServiceClient
	session *daybreakv1.Session
	asked   string // the question shown last
	again   string // a question to ask again, chosen by change
}

const chatHelp = `Type the number of a choice, a number, or
  ?  why we ask and how to find out     -  I don't know
  s  skip      u  undo      c  change an answer
  !  heat, smell, marks or buzzing      q  stop here and show the quote`

func (t *talk) run(ctx context.Context) error {
	ctx = metadata.AppendToOutgoingContext(ctx, access.PeerHeader, "127.0.0.1:0")
	made, err := t.intake.CreateSession(ctx, &daybreakv1.CreateSessionRequest{RequestId: uuid.NewString()})
	if err != nil {
		return err
	}
	t.session = made.Session
	ctx = metadata.AppendToOutgoingContext(ctx, access.SessionHeader, made.Secret)
	fmt.Fprintln(t.out, t.printer.Shop)
	fmt.Fprintln(t.out, chatHelp)
	for {
		q := t.open(ctx)
		if q == nil {
			return t.quote()
		}
		t.show(q)
		if !t.in.Scan() {
			return t.quote()
		}
		done, err := t.hear(ctx, q, strings.TrimSpace(t.in.Text()))
		if err != nil || done {
			return err
		}
	}
}

// open is the question to show: one asked again, or the one that is open.
func (t *talk) open(ctx context.Context) *daybreakv1.Question {
	if t.again != "" {
		tree, err := t.intake.GetQuestionTree(ctx, &daybreakv1.GetQuestionTreeRequest{})
		if err == nil {
			for _, q := range tree.Tree.Questions {
				if q.Id == t.again {
					return q
				}
			}
		}
		t.again = ""
	}
	return t.session.GetTurn().GetQuestion()
}

func (t *talk) show(q *daybreakv1.Question) {
	if t.asked == q.Id {
		fmt.Fprint(t.out, "> ")
		return
	}
	t.asked = q.Id
	if lead := t.session.GetTurn().GetLeadIn().GetText(); lead != "" && t.again == "" {
		fmt.Fprintf(t.out, "\n%s\n", lead)
	}
	fmt.Fprintf(t.out, "\n%s\n", q.Text)
	for i, c := range q.Choices {
		fmt.Fprintf(t.out, "  %d  %s\n", i+1, c.Text)
	}
	if l := q.Limits; len(l) > 0 {
		fmt.Fprintf(t.out, "  (%g to %g %s)\n", l[0].Low, l[0].High, l[0].UnitText)
	}
	fmt.Fprint(t.out, "> ")
}

// quote composes what is known and prints it: a quote can be had at any turn.
func (t *talk) quote() error {
	told, err := wire.Facts("facts", onlyTold(t.session.GetFacts()))
	if err != nil {
		return err
	}
	date, err := dateOf(t.books, t.asOf)
	if err != nil {
		return err
	}
	q, err := band.Quote(t.books, told, date)
	if err != nil {
		return err
	}
	fmt.Fprintln(t.out)
	return t.printer.Text(t.out, &q, &told)
}

// onlyTold is a household without what was derived: that is looked up afresh.
func onlyTold(known *daybreakv1.Facts) *daybreakv1.Facts {
	if known == nil {
		return &daybreakv1.Facts{}
	}
	told := proto.CloneOf(known)
	for _, d := range told.Derived {
		m := told.ProtoReflect()
		parts := strings.Split(d.Path, ".")
		for i, name := range parts {
			field := m.Descriptor().Fields().ByName(protoreflect.Name(name))
			if field == nil || !m.Has(field) {
				break
			}
			if i == len(parts)-1 {
				m.Clear(field)
				break
			}
			m = m.Mutable(field).Message()
		}
	}
	told.Derived = nil
	return told
}

// said prints what a refused answer should have been, and goes on.
func (t *talk) said(err error) error {
	s, ok := status.FromError(err)
	if !ok || errors.Is(err, context.Canceled) {
		return err
	}
	fmt.Fprintf(t.out, "  %s\n", s.Message())
	return nil
}
