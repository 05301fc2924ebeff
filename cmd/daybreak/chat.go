package main

import (
	"bufio"
	"context"
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
	"daybreak/internal/unit"

	"github.com/google/uuid"
	"github.com/spf13/cobra"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
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
	date, err := dateOf(books, asOf)
	if err != nil {
		return err
	}
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
		books: books, printer: printer, date: date,
		intake: daybreakv1.NewIntakeServiceClient(server.Channel()),
		cars:   daybreakv1.NewCatalogueServiceClient(server.Channel()),
	}
	return t.run(cmd.Context())
}

// talk is one conversation in a terminal.
type talk struct {
	in      *bufio.Scanner
	out     io.Writer
	books   *shop.Books
	printer *document.Printer
	date    unit.Date
	intake  daybreakv1.IntakeServiceClient
	cars    daybreakv1.CatalogueServiceClient
	session *daybreakv1.Session
	asked   string                         // the question shown last
	again   string                         // a question to ask again, chosen by change
	offered []*daybreakv1.CatalogueVehicle // cars to choose from by number
	said    map[string]bool                // dangers and contradictions that stand
}

const chatHelp = `Type the number of a choice, or what is asked for. At any question:
  -  I don't know            ?  why we ask, how to find out
  s  skip                    u  take the last answer back
  c  change an answer        g  guess for now, the whole walk
  h  show this again         !  heat, smell, marks or buzzing
  q  stop here and show the quote`

func (t *talk) run(ctx context.Context) error {
	ctx = metadata.AppendToOutgoingContext(ctx, access.PeerHeader, "127.0.0.1:0")
	made, err := t.intake.CreateSession(ctx, &daybreakv1.CreateSessionRequest{RequestId: uuid.NewString()})
	if err != nil {
		return err
	}
	t.session = made.Session
	ctx = metadata.AppendToOutgoingContext(ctx, access.SessionHeader, made.Secret)
	fmt.Fprintf(t.out, "%s\n\n%s\n", t.printer.Shop, chatHelp)
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
	if how := ways(q); how != "" {
		fmt.Fprintf(t.out, "  (%s)\n", how)
	}
	fmt.Fprint(t.out, "> ")
}

// quote composes what is known and prints it: a quote can be had at any turn.
func (t *talk) quote() error {
	told, err := wire.Facts("facts", onlyTold(t.session.GetFacts()))
	if err != nil {
		return err
	}
	q, err := band.Quote(t.books, told, t.date)
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

// refused says what an answer should have been, and goes on. An error that is
// no refusal ends the conversation.
func (t *talk) refused(err error) error {
	s, ok := status.FromError(err)
	if !ok || s.Code() == codes.Canceled || s.Code() == codes.Internal {
		return err
	}
	text := s.Message()
	for _, d := range s.Details() {
		if bad, ok := d.(*errdetails.BadRequest); ok && len(bad.FieldViolations) > 0 {
			v := bad.FieldViolations[0]
			text = strings.TrimPrefix(v.Description, v.Field+": ")
		}
	}
	fmt.Fprintf(t.out, "  %s.\n", strings.TrimSuffix(text, "."))
	return nil
}
