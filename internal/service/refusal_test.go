package service_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"math"
	"os"
	"strings"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/fault"
	"daybreak/internal/service"

	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/metadata"
	reflectionpb "google.golang.org/grpc/reflection/grpc_reflection_v1"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
)

// household is the facts of a household of testdata.
func household(t testing.TB, id string) *daybreakv1.Facts {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/households/" + id + ".json")
	require.NoError(t, err)
	var doc struct{ Facts json.RawMessage }
	require.NoError(t, json.Unmarshal(raw, &doc))
	facts := &daybreakv1.Facts{}
	require.NoError(t, protojson.Unmarshal(doc.Facts, facts))
	return facts
}

// violation is one field a status names.
type violation struct{ field, says string }

// told is what a status says: its code, reason and fields.
func told(t testing.TB, err error) (codes.Code, string, []violation) {
	t.Helper()
	s, ok := status.FromError(err)
	require.True(t, ok)
	var reason string
	var fields []violation
	for _, d := range s.Details() {
		switch d := d.(type) {
		case *errdetails.ErrorInfo:
			require.Equal(t, "daybreak", d.GetDomain())
			require.NotEmpty(t, d.GetMetadata()["request_id"])
			reason = d.GetReason()
		case *errdetails.BadRequest:
			for _, v := range d.GetFieldViolations() {
				fields = append(fields, violation{v.GetField(), v.GetDescription()})
			}
		case *errdetails.LocalizedMessage:
			require.Equal(t, s.Message(), d.GetMessage())
		}
	}
	require.NotEmpty(t, reason, "%v", err)
	return s.Code(), reason, fields
}

func TestRefusedFactsNameFieldAndWhatIsAccepted(t *testing.T) {
	quotes := daybreakv1.NewQuoteServiceClient(dialled(t, demoServer(t, nowhere{})))
	minusZero := math.Copysign(0, -1)
	for _, c := range []struct {
		name  string
		spoil func(*daybreakv1.ComposeQuoteRequest)
		field string
		says  string
	}{
		{"negative feet", func(r *daybreakv1.ComposeQuoteRequest) { r.Facts.Route.PanelToChargerFeet = proto.Float64(-5) }, "facts.route.panel_to_charger_feet", "give 1 to 400 ft"},
		{"NaN", func(r *daybreakv1.ComposeQuoteRequest) { r.Facts.Driving.WeekdayMiles = proto.Float64(math.NaN()) }, "facts.driving.weekday_miles", "finite"},
		{"infinity", func(r *daybreakv1.ComposeQuoteRequest) { r.Facts.Driving.WeekdayMiles = proto.Float64(math.Inf(1)) }, "facts.driving.weekday_miles", "finite"},
		{"minus zero", func(r *daybreakv1.ComposeQuoteRequest) { r.Facts.Driving.WeekdayMiles = &minusZero }, "facts.driving.weekday_miles", "without a sign"},
		{"10⁹ miles", func(r *daybreakv1.ComposeQuoteRequest) { r.Facts.Driving.AnnualMiles = proto.Float64(1e9) }, "facts.driving.annual_miles", "give 0 to 150000 mi"},
		{"unknown enum", func(r *daybreakv1.ComposeQuoteRequest) { r.Facts.Place.Parking = daybreakv1.Parking(77).Enum() }, "facts.place.parking", "attached"},
		{"no word of an enum", func(r *daybreakv1.ComposeQuoteRequest) { r.Facts.Place.Parking = daybreakv1.Parking(0).Enum() }, "facts.place.parking", "attached"},
		{"three-phase panel", func(r *daybreakv1.ComposeQuoteRequest) { r.Facts.Panel.SupplyVolts = proto.Float64(480) }, "facts.panel.supply_volts", "208 or 240 V"},
		{"3 KB of text", func(r *daybreakv1.ComposeQuoteRequest) {
			r.Facts.Vehicle.Model = proto.String(strings.Repeat("x", 3<<10))
		}, "facts.vehicle.model", "1 to 64"},
		{"control characters", func(r *daybreakv1.ComposeQuoteRequest) { r.Facts.Vehicle.Model = proto.String("a\u202eb") }, "facts.vehicle.model", "without control characters"},
		{"derived, which is for replies", func(r *daybreakv1.ComposeQuoteRequest) {
			r.Facts.Derived = []*daybreakv1.Derived{{Path: "place.time_zone", Source: "postal_table"}}
		}, "facts.derived", "in replies only"},
		{"unknown path", func(r *daybreakv1.ComposeQuoteRequest) { r.Facts.Unsure = []string{"panel.servis_amps"} }, "facts.unsure[0]", "panel.service_amps"},
		{"no facts", func(r *daybreakv1.ComposeQuoteRequest) { r.Facts = nil }, "facts", "a value"},
		{"no such day", func(r *daybreakv1.ComposeQuoteRequest) { r.AsOfDate = "2026-02-30" }, "as_of_date", "a date"},
		{"no date", func(r *daybreakv1.ComposeQuoteRequest) { r.AsOfDate = "tomorrow" }, "as_of_date", "such as 2026-01-31"},
		{"no view", func(r *daybreakv1.ComposeQuoteRequest) { r.View = 9 }, "view", "QUOTE_VIEW_FULL"},
		{"no language", func(r *daybreakv1.ComposeQuoteRequest) { r.Locale = "<b>" }, "locale", "en-US"},
		{"field of no contract", func(r *daybreakv1.ComposeQuoteRequest) {
			r.Facts.Panel.ProtoReflect().SetUnknown([]byte{0xa0, 0x06, 0x01})
		}, "facts.panel", "fields of the contract"},
	} {
		t.Run(c.name, func(t *testing.T) {
			req := &daybreakv1.ComposeQuoteRequest{Facts: household(t, "V01"), AsOfDate: "2026-11-25"}
			c.spoil(req)
			_, err := quotes.ComposeQuote(context.Background(), req)
			code, _, fields := told(t, err)
			require.Equal(t, codes.InvalidArgument, code)
			require.Equal(t, c.field, fields[0].field)
			require.Contains(t, fields[0].says, c.says)
			require.NotContains(t, err.Error(), strings.Repeat("x", 200), "what was given is not repeated at length")
		})
	}
}

func TestEveryRefusedFieldIsNamed(t *testing.T) {
	quotes := daybreakv1.NewQuoteServiceClient(dialled(t, demoServer(t, nowhere{})))
	facts := household(t, "V01")
	facts.Panel.ServiceAmps, facts.Panel.BusAmps, facts.Route.PanelToChargerFeet = proto.Float64(5), proto.Float64(5), proto.Float64(0)
	_, err := quotes.ComposeQuote(context.Background(), &daybreakv1.ComposeQuoteRequest{Facts: facts})
	_, _, fields := told(t, err)
	require.Len(t, fields, 3)
}

func TestALargeRequestIsRefusedBeforeItIsRead(t *testing.T) {
	quotes := daybreakv1.NewQuoteServiceClient(dialled(t, demoServer(t, nowhere{})))
	facts := household(t, "V01")
	facts.Vehicle.Model = proto.String(strings.Repeat("x", 10<<20))
	_, err := quotes.ComposeQuote(context.Background(), &daybreakv1.ComposeQuoteRequest{Facts: facts}, grpc.MaxCallSendMsgSize(32<<20))
	require.Equal(t, codes.ResourceExhausted, status.Code(err))
	require.Contains(t, err.Error(), "vs. 65536", "the limit is named")
}

func TestUnknownCredentialsAreRefused(t *testing.T) {
	conn := dialled(t, demoServer(t, nowhere{}))
	for _, header := range []string{"daybreak-key", "authorization"} {
		ctx := metadata.AppendToOutgoingContext(context.Background(), header, "secret-canary")
		_, err := daybreakv1.NewCatalogueServiceClient(conn).ListReceptacles(ctx, &daybreakv1.ListReceptaclesRequest{})
		code, reason, fields := told(t, err)
		require.Equal(t, codes.Unauthenticated, code)
		require.Equal(t, "CREDENTIAL_UNKNOWN", reason)
		require.Equal(t, header, fields[0].field)
		require.NotContains(t, err.Error(), "canary")
	}
}

func TestNobodyIsLetInWithoutAnOpenShop(t *testing.T) {
	srv, err := service.New(service.Config{Books: demoBooks(t), Store: nowhere{}, Keys: demoKeys(t)})
	require.NoError(t, err)
	conn := dialled(t, srv)
	_, err = daybreakv1.NewCatalogueServiceClient(conn).ListReceptacles(context.Background(), &daybreakv1.ListReceptaclesRequest{})
	code, reason, _ := told(t, err)
	require.Equal(t, codes.Unauthenticated, code)
	require.Equal(t, "CREDENTIAL_MISSING", reason)
	reply, err := healthpb.NewHealthClient(conn).Check(context.Background(), &healthpb.HealthCheckRequest{})
	require.NoError(t, err, "health is for everybody")
	require.Equal(t, healthpb.HealthCheckResponse_SERVING, reply.GetStatus())
}

func TestInternalErrorsAreLoggedWholeAndShownToNobody(t *testing.T) {
	var log bytes.Buffer
	ctx := service.WithRequestID(context.Background(), "5f2b9c1e-0c7a-4e0e-9a53-2f7d1c0e8b11")
	err := service.Status(ctx, slog.New(slog.NewTextHandler(&log, nil)), os.ErrPermission)
	require.Equal(t, codes.Internal, status.Code(err))
	require.NotContains(t, err.Error(), "permission")
	require.Contains(t, err.Error(), "5f2b9c1e-0c7a-4e0e-9a53-2f7d1c0e8b11")
	require.Contains(t, log.String(), "permission denied")
	require.Contains(t, log.String(), "5f2b9c1e-0c7a-4e0e-9a53-2f7d1c0e8b11")

	err = service.Status(ctx, slog.New(slog.NewTextHandler(&log, nil)), fault.InFile("prices/items.yaml", 7, "price", -1, "0 or more"))
	require.Equal(t, codes.Internal, status.Code(err), "a broken file is ours to mend")
	require.NotContains(t, err.Error(), "items.yaml")
}

// One table from kinds of faults to codes.
func TestEveryKindHasItsCode(t *testing.T) {
	for kind, code := range map[fault.Kind]codes.Code{
		fault.KindInvalid: codes.InvalidArgument, fault.KindNotFound: codes.NotFound, fault.KindConflict: codes.AlreadyExists,
		fault.KindDenied: codes.Unauthenticated, fault.KindPrecondition: codes.FailedPrecondition,
		fault.KindExhausted: codes.ResourceExhausted, fault.KindUnavailable: codes.Unavailable,
	} {
		err := service.Status(service.WithRequestID(context.Background(), ""), slog.New(slog.DiscardHandler), &fault.Fault{Kind: kind, Reason: "R", Field: "f", Accepted: "a"})
		require.Equal(t, code, status.Code(err))
		_, reason, _ := told(t, err)
		require.Equal(t, "R", reason)
	}
	stale := service.Status(service.WithRequestID(context.Background(), ""), slog.New(slog.DiscardHandler), &fault.Fault{Kind: fault.KindConflict, Reason: "STALE_REVISION", Current: "3-9f86d081"})
	require.Equal(t, codes.Aborted, status.Code(stale))
	require.Contains(t, fmt.Sprint(status.Convert(stale).Details()), "3-9f86d081", "the revision in force is told")
}

// A client with no proto at hand can ask what is served.
func TestReflectionNamesEveryService(t *testing.T) {
	stream, err := reflectionpb.NewServerReflectionClient(dialled(t, demoServer(t, nowhere{}))).ServerReflectionInfo(context.Background())
	require.NoError(t, err)
	require.NoError(t, stream.Send(&reflectionpb.ServerReflectionRequest{MessageRequest: &reflectionpb.ServerReflectionRequest_ListServices{}}))
	reply, err := stream.Recv()
	require.NoError(t, err)
	var names []string
	for _, s := range reply.GetListServicesResponse().GetService() {
		names = append(names, s.GetName())
	}
	require.Subset(t, names, []string{"daybreak.v1.CatalogueService", "daybreak.v1.DesignService", "daybreak.v1.IntakeService", "daybreak.v1.QuoteService", "grpc.health.v1.Health"})
	require.NoError(t, stream.CloseSend())
}

func TestRepliesCarryTheRequestID(t *testing.T) {
	conn := dialled(t, demoServer(t, nowhere{}))
	var header metadata.MD
	ctx := metadata.AppendToOutgoingContext(context.Background(), service.RequestIDHeader, "5f2b9c1e-0c7a-4e0e-9a53-2f7d1c0e8b11")
	_, err := daybreakv1.NewCatalogueServiceClient(conn).ListReceptacles(ctx, &daybreakv1.ListReceptaclesRequest{}, grpc.Header(&header))
	require.NoError(t, err)
	require.Equal(t, []string{"5f2b9c1e-0c7a-4e0e-9a53-2f7d1c0e8b11"}, header.Get(service.RequestIDHeader))
	ctx = metadata.AppendToOutgoingContext(context.Background(), service.RequestIDHeader, "line break <b>")
	_, err = daybreakv1.NewCatalogueServiceClient(conn).ListReceptacles(ctx, &daybreakv1.ListReceptaclesRequest{}, grpc.Header(&header))
	require.NoError(t, err)
	require.Len(t, header.Get(service.RequestIDHeader)[0], 36, "only a UUID names a call")
}
