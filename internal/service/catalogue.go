package service

import (
	"context"
	"strconv"
	"strings"

	daybreakv1 "daybreak/api/daybreak/v1"
	"daybreak/internal/charging"
	"daybreak/internal/fault"
	"daybreak/internal/service/access"
	"daybreak/internal/service/wire"
)

// catalogueHandler answers what one may choose from.
type catalogueHandler struct {
	daybreakv1.UnsafeCatalogueServiceServer
	*handlers
}

// usualPage is the size of a page when none is asked for, and usualFound how
// many hits a search gives.
const (
	usualPage  = 50
	usualFound = 10
)

func (h *catalogueHandler) ListVehicles(ctx context.Context, req *daybreakv1.ListVehiclesRequest) (*daybreakv1.ListVehiclesResponse, error) {
	all := h.books.Charging.Vehicles.List()
	first, err := h.pageStart(ctx, "vehicles", req.GetPageToken(), len(all))
	if err != nil {
		return nil, err
	}
	size := int(req.GetPageSize())
	if size == 0 {
		size = usualPage
	}
	last := min(first+size, len(all))
	out := &daybreakv1.ListVehiclesResponse{}
	for _, v := range all[first:last] {
		out.Vehicles = append(out.Vehicles, wire.Vehicle(v))
	}
	if last < len(all) {
		out.NextPageToken = h.keys.PageToken(access.From(ctx).Shop, "vehicles", strconv.Itoa(last))
	}
	return out, nil
}

// pageStart is where a page begins in a list of that length.
func (h *handlers) pageStart(ctx context.Context, filter, token string, length int) (int, error) {
	if token == "" {
		return 0, nil
	}
	next, err := h.keys.OpenPageToken(access.From(ctx).Shop, filter, token)
	if err != nil {
		return 0, err
	}
	first, err := strconv.Atoi(next)
	if err != nil || first < 0 || first > length {
		return 0, fault.Invalid("page_token", token, "a token of this list as it is now; begin again without one")
	}
	return first, nil
}

func (h *catalogueHandler) GetVehicle(_ context.Context, req *daybreakv1.GetVehicleRequest) (*daybreakv1.GetVehicleResponse, error) {
	v, err := h.vehicle(strings.TrimPrefix(req.GetName(), "vehicles/"))
	if err != nil {
		return nil, fault.NotFound("name", req.GetName())
	}
	return &daybreakv1.GetVehicleResponse{Vehicle: wire.Vehicle(v)}, nil
}

func (h *handlers) vehicle(id string) (charging.Vehicle, error) {
	return h.books.Charging.Vehicles.ByID(id)
}

func (h *catalogueHandler) SearchVehicles(_ context.Context, req *daybreakv1.SearchVehiclesRequest) (*daybreakv1.SearchVehiclesResponse, error) {
	most := int(req.GetPageSize())
	if most == 0 {
		most = usualFound
	}
	out := &daybreakv1.SearchVehiclesResponse{}
	for _, m := range h.books.Charging.Vehicles.Search(req.GetQuery(), most) {
		out.Vehicles = append(out.Vehicles, wire.Vehicle(m.Vehicle))
	}
	return out, nil
}

func (h *catalogueHandler) ListTariffs(context.Context, *daybreakv1.ListTariffsRequest) (*daybreakv1.ListTariffsResponse, error) {
	out := &daybreakv1.ListTariffsResponse{}
	for i := range h.books.Tariffs {
		out.Tariffs = append(out.Tariffs, wire.Tariff(&h.books.Tariffs[i]))
	}
	if len(out.Tariffs) > 0 {
		out.Revision = wire.Revision(h.books.TariffBook)
	}
	return out, nil
}

func (h *catalogueHandler) ListReceptacles(context.Context, *daybreakv1.ListReceptaclesRequest) (*daybreakv1.ListReceptaclesResponse, error) {
	out := &daybreakv1.ListReceptaclesResponse{}
	for _, r := range h.outlets.Receptacles() {
		out.Receptacles = append(out.Receptacles, wire.Receptacle(r))
	}
	return out, nil
}
