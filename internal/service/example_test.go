package service_test

import (
	"context"
	"fmt"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/service"
	"daybreak/internal/service/access"
	"daybreak/internal/shop"
	"daybreak/internal/shop/alderbay"

	"google.golang.org/grpc/metadata"
	"google.golang.org/protobuf/proto"
)

// A light driver with a plug-in hybrid asks what it takes. The call goes
// through the channel the web front uses; over a socket it is the same.
func Example() {
	books, err := shop.Open(alderbay.Files())
	if err != nil {
		panic(err)
	}
	keys, err := access.NewKeyring(make([]byte, access.KeySize))
	if err != nil {
		panic(err)
	}
	server, err := service.New(service.Config{Books: books, Store: nowhere{}, Keys: keys, Policy: access.Policy{OpenShop: books.ID}})
	if err != nil {
		panic(err)
	}
	ctx := metadata.AppendToOutgoingContext(context.Background(), access.PeerHeader, "127.0.0.1:1")
	reply, err := daybreakv1.NewQuoteServiceClient(server.Channel()).ComposeQuote(ctx, &daybreakv1.ComposeQuoteRequest{
		AsOfDate: "2026-11-25",
		Facts: &daybreakv1.Facts{
			Vehicle: &daybreakv1.Vehicle{Model: proto.String("phev-sedan")},
			Driving: &daybreakv1.Driving{WeekdayMiles: proto.Float64(22)},
		},
	})
	if err != nil {
		panic(err)
	}
	fmt.Println(reply.GetQuote().GetStanding())
	// Output: STANDING_BALLPARK
}
