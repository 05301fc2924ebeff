package service_test

import (
	"context"
	"math"
	"testing"

	daybreakv1 "daybreak/api/daybreak/v1"

	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/protobuf/proto"
)

// shortDays is a mid-size sedan of the far north-east that goes 35 miles a day,
// at an outlet and at a charger.
func shortDays() *daybreakv1.ReadinessCase {
	return &daybreakv1.ReadinessCase{
		Car:     &daybreakv1.CarCase{Vehicle: "vehicles/mid-sedan-long"},
		Miles:   &daybreakv1.DailyMiles{AverageMiles: proto.Float64(35)},
		Habit:   &daybreakv1.PlugInHabit{WeeknightHours: proto.Float64(11)},
		Climate: &daybreakv1.ClimateCase{Station: "Burlington"},
		Options: []*daybreakv1.HomeOption{{WallKw: 1.44}, {WallKw: 7.68}, {}},
	}
}

// yearOfCharging is the same household's on the demo's tariffs.
func yearOfCharging() *daybreakv1.TariffCase {
	return &daybreakv1.TariffCase{
		Car:     &daybreakv1.CarCase{Archetype: daybreakv1.Archetype_ARCHETYPE_MID_SEDAN_LONG.Enum()},
		Miles:   &daybreakv1.DailyMiles{WeekdayMiles: proto.Float64(35), WeekendMiles: proto.Float64(20)},
		Climate: &daybreakv1.ClimateCase{Station: "Burlington"},
		Options: []*daybreakv1.HomeOption{{WallKw: 1.44}, {WallKw: 7.68}},
		HouseKw: []float64{0.9},
	}
}

func TestAssessReadiness(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	r, err := design.AssessReadiness(context.Background(), &daybreakv1.AssessReadinessRequest{Case: shortDays()})
	require.NoError(t, err)
	require.Len(t, r.GetOptions(), 3)
	outlet, charger, nothing := r.GetOptions()[0], r.GetOptions()[1], r.GetOptions()[2]
	for _, o := range r.GetOptions() {
		require.InDelta(t, o.GetShortDays(), o.GetUncurableDays()+o.GetHabitDays()+o.GetCausedDays(), 1e-6, "three causes and no more")
		require.InDelta(t, outlet.GetUncurableDays(), o.GetUncurableDays(), 0.05, "no option cures these, so all share them")
		require.Len(t, o.GetMonths(), 12)
		require.LessOrEqual(t, o.GetLowDays(), o.GetHighDays())
		require.NotEqual(t, o.GetSummary().GetKey(), o.GetSummary().GetText())
		require.Nil(t, o.GetFuel())
		require.NotEmpty(t, o.GetWorking().GetSteps())
		for _, s := range o.GetWorking().GetSteps() {
			require.NotEqual(t, s.GetRule(), s.GetSentence(), "%s has no words", s.GetRule())
		}
	}
	require.Less(t, outlet.GetCausedDaysMild(), outlet.GetCausedDays())
	require.Greater(t, outlet.GetCausedDaysHarsh(), outlet.GetCausedDays())
	require.Greater(t, outlet.GetCausedDays(), charger.GetCausedDays()+5)
	require.Greater(t, nothing.GetCausedDays(), outlet.GetCausedDays())
	require.EqualValues(t, 1, outlet.GetWorstMonth())
	require.NotNil(t, nothing.GetOverload())
	require.Greater(t, outlet.GetPublicKwh(), charger.GetPublicKwh())
}

func TestAHybridIsNeverShortAndBurnsFuel(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	c := shortDays()
	c.Car = &daybreakv1.CarCase{Archetype: daybreakv1.Archetype_ARCHETYPE_PHEV_SEDAN.Enum()}
	r, err := design.AssessReadiness(context.Background(), &daybreakv1.AssessReadinessRequest{Case: c})
	require.NoError(t, err)
	for _, o := range r.GetOptions() {
		require.Zero(t, o.GetShortDays())
		require.Nil(t, o.WorstMonth)
		require.Positive(t, o.GetFuel().GetFuelMiles())
		require.Equal(t, "readiness.fuel", o.GetSummary().GetKey())
	}
	require.Less(t, r.GetOptions()[1].GetFuel().GetFuelMiles(), r.GetOptions()[2].GetFuel().GetFuelMiles())
}

func TestTwoCarsShareACircuit(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	c := shortDays()
	c.Options = c.Options[:1]
	alone, err := design.AssessReadiness(context.Background(), &daybreakv1.AssessReadinessRequest{Case: c})
	require.NoError(t, err)
	c.Second = &daybreakv1.SecondCar{Car: c.GetCar(), Miles: c.GetMiles(), Habit: c.GetHabit(), WallKw: 1.44, CircuitKw: 1.44}
	both, err := design.AssessReadiness(context.Background(), &daybreakv1.AssessReadinessRequest{Case: c})
	require.NoError(t, err)
	require.Len(t, both.GetSecond(), 1)
	require.Greater(t, both.GetOptions()[0].GetCausedDays(), alone.GetOptions()[0].GetCausedDays())
	require.InDelta(t, both.GetOptions()[0].GetCausedDays(), both.GetSecond()[0].GetCausedDays(), 1e-6, "alike cars fare alike")
}

func TestCheckCompatibility(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	j3400, j1772 := daybreakv1.Inlet_INLET_J3400.Enum(), daybreakv1.Connector_CONNECTOR_J1772.Enum()
	for _, c := range []struct {
		name    string
		of      *daybreakv1.CompatibilityCase
		pick    func(*daybreakv1.Compatibility) *daybreakv1.Fit
		joint   daybreakv1.Joint
		adapter float64
	}{
		// SAE J3400; an adapter carries what the equipment is set to.
		{"AC by adapter", &daybreakv1.CompatibilityCase{Inlet: j3400, Connector: j1772, SettingAmps: proto.Float64(48)}, (*daybreakv1.Compatibility).GetConnector, daybreakv1.Joint_JOINT_WITH_ADAPTER, 48},
		{"AC by adapter, setting not told", &daybreakv1.CompatibilityCase{Inlet: j3400, Connector: j1772}, (*daybreakv1.Compatibility).GetConnector, daybreakv1.Joint_JOINT_WITH_ADAPTER, 80},
		{"AC direct", &daybreakv1.CompatibilityCase{Inlet: daybreakv1.Inlet_INLET_J1772.Enum(), Connector: j1772}, (*daybreakv1.Compatibility).GetConnector, daybreakv1.Joint_JOINT_DIRECT, 0},
		{"DC of two kinds", &daybreakv1.CompatibilityCase{DcInlet: daybreakv1.DCInlet_DC_INLET_CCS1.Enum(), DcConnector: daybreakv1.DCInlet_DC_INLET_CHADEMO.Enum()}, (*daybreakv1.Compatibility).GetDcConnector, daybreakv1.Joint_JOINT_NO_FIT, 0},
		{"no fast charging", &daybreakv1.CompatibilityCase{DcInlet: daybreakv1.DCInlet_DC_INLET_NONE.Enum(), DcConnector: daybreakv1.DCInlet_DC_INLET_CCS1.Enum()}, (*daybreakv1.Compatibility).GetDcConnector, daybreakv1.Joint_JOINT_NO_FIT, 0},
		// ANSI/NEMA WD 6: a 20 A receptacle takes a 15 A plug.
		{"a smaller plug", &daybreakv1.CompatibilityCase{Plug: daybreakv1.Configuration_CONFIGURATION_5_15.Enum(), Receptacle: daybreakv1.Configuration_CONFIGURATION_5_20.Enum()}, (*daybreakv1.Compatibility).GetPlug, daybreakv1.Joint_JOINT_DIRECT, 0},
		{"ground-fault protection behind the face", &daybreakv1.CompatibilityCase{Plug: daybreakv1.Configuration_CONFIGURATION_5_15.Enum(), Receptacle: daybreakv1.Configuration_CONFIGURATION_5_15_GFCI.Enum()}, (*daybreakv1.Compatibility).GetPlug, daybreakv1.Joint_JOINT_DIRECT, 0},
		{"a larger plug", &daybreakv1.CompatibilityCase{Plug: daybreakv1.Configuration_CONFIGURATION_14_50.Enum(), Receptacle: daybreakv1.Configuration_CONFIGURATION_14_30.Enum()}, (*daybreakv1.Compatibility).GetPlug, daybreakv1.Joint_JOINT_NO_FIT, 0},
		{"no ground", &daybreakv1.CompatibilityCase{Plug: daybreakv1.Configuration_CONFIGURATION_10_30.Enum(), Receptacle: daybreakv1.Configuration_CONFIGURATION_10_30.Enum()}, (*daybreakv1.Compatibility).GetPlug, daybreakv1.Joint_JOINT_NO_FIT, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := design.CheckCompatibility(context.Background(), &daybreakv1.CheckCompatibilityRequest{Case: c.of})
			require.NoError(t, err)
			fit := c.pick(r.GetCompatibility())
			require.Equal(t, c.joint, fit.GetJoint())
			require.Equal(t, c.adapter, fit.GetAdapterAmps())
			require.NotEqual(t, fit.GetCondition().GetKey(), fit.GetCondition().GetText())
			require.NotContains(t, fit.GetCondition().GetText(), "{")
			require.Len(t, r.GetCompatibility().GetWorking().GetSteps(), 1)
			require.Len(t, r.GetCompatibility().GetNever(), 8)
			for _, n := range r.GetCompatibility().GetNever() {
				require.NotEqual(t, n.GetWhat().GetKey(), n.GetWhat().GetText())
				require.NotEmpty(t, n.GetSection())
			}
		})
	}
}

// A car named alone is told of fast charging, for the road and not for homes.
func TestCheckCompatibilityAwayFromHome(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	ask := func(id string) (*daybreakv1.Compatibility, error) {
		r, err := design.CheckCompatibility(context.Background(), &daybreakv1.CheckCompatibilityRequest{Case: &daybreakv1.CompatibilityCase{Vehicle: "vehicles/" + id}})
		return r.GetCompatibility(), err
	}
	got, err := ask("mid-sedan-long")
	require.NoError(t, err)
	away := got.GetAway()
	require.True(t, away.GetCan())
	require.Equal(t, "Fast chargers stand on the road. They are not for homes.", away.GetNote().GetText())
	require.Len(t, away.GetFits(), 3)
	for _, f := range away.GetFits() {
		require.NotZero(t, f.GetConnector())
		require.NotZero(t, f.GetFit().GetJoint())
	}
	require.Len(t, away.GetStations(), 3)
	for i, station := range []float64{50, 150, 250} {
		s := away.GetStations()[i]
		require.Equal(t, station, s.GetStationKw())
		require.LessOrEqual(t, s.GetPowerKw(), station)
		require.Positive(t, s.GetLeastHours())
		require.Greater(t, s.GetMostHours(), s.GetLeastHours())
		require.Positive(t, s.GetBatteryKwh())
	}
	require.Len(t, got.GetWorking().GetSteps(), 6, "three fits and three stations")
	require.Nil(t, got.GetConnector())

	got, err = ask("phev-sedan")
	require.NoError(t, err)
	require.False(t, got.GetAway().GetCan())
	require.Empty(t, got.GetAway().GetStations())
	require.Len(t, got.GetAway().GetFits(), 3)
	_, err = ask("nobody")
	require.ErrorContains(t, err, "vehicle")
}

// Warming the cabin at 32 °F takes 1 kWh (from memory); a Level 2 plug carries
// it all, an ordinary outlet does not.
func TestEstimateChargingPreconditioning(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	ask := func(volts, amps float64, outdoor, share *float64) (*daybreakv1.ChargeEstimate, error) {
		r, err := design.EstimateCharging(context.Background(), &daybreakv1.EstimateChargingRequest{Case: &daybreakv1.ChargeCase{
			Volts: volts, SettingAmps: &amps, UsableKwh: proto.Float64(60), WallKwhPer_100Mi: proto.Float64(30), OutdoorF: outdoor, PreconditionShare: share,
		}})
		return r.GetEstimate(), err
	}
	strong, err := ask(240, 32, proto.Float64(32), proto.Float64(0.5))
	require.NoError(t, err)
	p := strong.GetPrecondition()
	require.InDelta(t, 1.0, p.GetEnergyKwh(), 1e-9)
	require.InDelta(t, 1.0, p.GetWallKwh(), 1e-9)
	require.InDelta(t, 0.0, p.GetBatteryKwh(), 1e-9)
	require.InDelta(t, 0.5, p.GetAverageWallKwh(), 1e-9)
	weak, err := ask(120, 12, proto.Float64(32), proto.Float64(1))
	require.NoError(t, err)
	require.Positive(t, weak.GetPrecondition().GetBatteryKwh())
	var rules []string
	for _, s := range weak.GetWorking().GetSteps() {
		rules = append(rules, s.GetRule())
	}
	require.Contains(t, rules, "charging.precondition.energy")
	require.Contains(t, rules, "charging.precondition.average")
	none, err := ask(240, 32, proto.Float64(32), nil)
	require.NoError(t, err)
	require.Nil(t, none.GetPrecondition())
	_, err = ask(240, 32, nil, proto.Float64(1))
	require.ErrorContains(t, err, "outdoor_f")
}

// Every outlet of the contract has an answer for every plug of it.
func TestEveryPlugMeetsEveryReceptacle(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	for plug := 1; plug < len(daybreakv1.Configuration_name); plug++ {
		for receptacle := 1; receptacle < len(daybreakv1.Configuration_name); receptacle++ {
			r, err := design.CheckCompatibility(context.Background(), &daybreakv1.CheckCompatibilityRequest{Case: &daybreakv1.CompatibilityCase{
				Plug: daybreakv1.Configuration(plug).Enum(), Receptacle: daybreakv1.Configuration(receptacle).Enum(),
			}})
			require.NoError(t, err)
			require.NotZero(t, r.GetCompatibility().GetPlug().GetJoint())
		}
	}
}

func TestCompareTariffs(t *testing.T) {
	conn := dialled(t, demoServer(t, nowhere{}))
	design, ctx := daybreakv1.NewDesignServiceClient(conn), context.Background()
	list, err := daybreakv1.NewCatalogueServiceClient(conn).ListTariffs(ctx, &daybreakv1.ListTariffsRequest{})
	require.NoError(t, err)
	require.Len(t, list.GetTariffs(), 3)
	require.Equal(t, "tariffs", list.GetRevision().GetBook())
	for _, one := range list.GetTariffs() {
		require.Len(t, one.GetMonths(), 12)
		require.Equal(t, "invented for the demo", one.GetPublication())
		for _, m := range one.GetMonths() {
			for _, p := range append(m.GetWeekday(), m.GetWeekend()...) {
				require.Less(t, int(p), len(one.GetPeriods()))
			}
		}
	}
	r, err := design.CompareTariffs(ctx, &daybreakv1.CompareTariffsRequest{Case: yearOfCharging(), AsOfDate: "2026-11-25"})
	require.NoError(t, err)
	require.True(t, proto.Equal(list.GetRevision(), r.GetRevision()))
	require.Len(t, r.GetOptions(), 2)
	for _, o := range r.GetOptions() {
		require.Len(t, o.GetTariffs(), 3)
		for i, y := range o.GetTariffs() {
			require.Equal(t, list.GetTariffs()[i].GetName(), y.GetTariff())
			require.Equal(t, y.GetSaves().GetMinorUnits(), y.GetUnmanaged().GetYear().GetMinorUnits()-y.GetScheduled().GetYear().GetMinorUnits())
			require.GreaterOrEqual(t, y.GetSaves().GetMinorUnits(), int64(0))
			require.InDelta(t, y.GetUnmanaged().GetEnergyKwh(), y.GetScheduled().GetEnergyKwh(), 1e-6, "both ways deliver the same")
			require.Len(t, y.GetScheduled().GetMonths(), 12)
			require.NotEqual(t, y.GetSummary().GetKey(), y.GetSummary().GetText())
		}
		require.NotEmpty(t, o.GetWorking().GetSteps())
		for _, s := range o.GetWorking().GetSteps() {
			require.NotEqual(t, s.GetRule(), s.GetSentence(), "%s has no words", s.GetRule())
		}
	}
	require.Positive(t, r.GetOptions()[1].GetTariffs()[1].GetSaves().GetMinorUnits(), "a night price is there to be used")

	c := yearOfCharging()
	c.Tariffs = []string{list.GetTariffs()[2].GetName()}
	one, err := design.CompareTariffs(ctx, &daybreakv1.CompareTariffsRequest{Case: c, AsOfDate: "2026-11-25"})
	require.NoError(t, err)
	require.True(t, proto.Equal(r.GetOptions()[0].GetTariffs()[2], one.GetOptions()[0].GetTariffs()[0]))
}

func TestRefusedYearsNameTheField(t *testing.T) {
	design := daybreakv1.NewDesignServiceClient(dialled(t, demoServer(t, nowhere{})))
	ctx := context.Background()
	days := func(spoil func(*daybreakv1.ReadinessCase)) func() error {
		return func() error {
			c := shortDays()
			spoil(c)
			_, err := design.AssessReadiness(ctx, &daybreakv1.AssessReadinessRequest{Case: c})
			return err
		}
	}
	costs := func(spoil func(*daybreakv1.TariffCase)) func() error {
		return func() error {
			c := yearOfCharging()
			spoil(c)
			_, err := design.CompareTariffs(ctx, &daybreakv1.CompareTariffsRequest{Case: c})
			return err
		}
	}
	fits := func(c *daybreakv1.CompatibilityCase) func() error {
		return func() error {
			_, err := design.CheckCompatibility(ctx, &daybreakv1.CheckCompatibilityRequest{Case: c})
			return err
		}
	}
	for _, c := range []struct {
		name  string
		call  func() error
		field string
		says  string
	}{
		{"no battery", days(func(c *daybreakv1.ReadinessCase) { c.Car.UsableKwh = proto.Float64(0) }), "case.car.usable_kwh", "5 to 250 kWh"},
		{"a car of no size", days(func(c *daybreakv1.ReadinessCase) {
			c.Car = &daybreakv1.CarCase{WallKwhPer_100Mi: proto.Float64(28)}
		}), "case.car.usable_kwh", "5 to 250 kWh"},
		{"a car that is not known", days(func(c *daybreakv1.ReadinessCase) { c.Car = &daybreakv1.CarCase{} }), "case.car.wall_kwh_per_100mi", "15 to 120"},
		{"a car of no row", days(func(c *daybreakv1.ReadinessCase) { c.Car.Vehicle = "vehicles/none" }), "case.car.vehicle", "vehicle table"},
		{"limit below the reserve", days(func(c *daybreakv1.ReadinessCase) {
			c.Car.ChargeLimitShare, c.Car.ReserveShare = proto.Float64(0.4), proto.Float64(0.5)
		}), "case.car.charge_limit_share", "above the reserve"},
		{"NaN", days(func(c *daybreakv1.ReadinessCase) { c.Miles.AverageMiles = proto.Float64(math.NaN()) }), "case.miles.average_miles", "finite"},
		{"infinite power", days(func(c *daybreakv1.ReadinessCase) { c.Options[1].WallKw = math.Inf(1) }), "case.options[1].wall_kw", "finite"},
		{"negative power", days(func(c *daybreakv1.ReadinessCase) { c.Options[0].WallKw = -1 }), "case.options[0].wall_kw", "0 to 50 kW"},
		{"10⁹ miles", days(func(c *daybreakv1.ReadinessCase) { c.Miles.AverageMiles = proto.Float64(1e9) }), "case.miles.average_miles", "0 to 1000 mi"},
		{"miles told twice", days(func(c *daybreakv1.ReadinessCase) { c.Miles.WeekdayMiles = proto.Float64(1) }), "case.miles.average_miles", "beside"},
		{"no miles", days(func(c *daybreakv1.ReadinessCase) { c.Miles = &daybreakv1.DailyMiles{} }), "case.miles.weekday_miles", "average_miles"},
		{"no options", days(func(c *daybreakv1.ReadinessCase) { c.Options = nil }), "case.options", "1 to 8"},
		{"no place", days(func(c *daybreakv1.ReadinessCase) { c.Climate = &daybreakv1.ClimateCase{} }), "case.climate.monthly_mean_f", "12"},
		{"a place of nowhere", days(func(c *daybreakv1.ReadinessCase) { c.Climate.Station = "Atlantis" }), "case.climate.station", "climate table"},
		{"a place told twice", days(func(c *daybreakv1.ReadinessCase) { c.Climate.MonthlyMeanF = make([]float64, 12) }), "case.climate.monthly_mean_f", "beside a station"},
		{"a month of fire", days(func(c *daybreakv1.ReadinessCase) {
			c.Climate = &daybreakv1.ClimateCase{MonthlyMeanF: []float64{900}}
		}), "case.climate.monthly_mean_f[0]", "-80 to 130 °F"},
		{"a day of 30 hours", days(func(c *daybreakv1.ReadinessCase) { c.Habit.WeeknightHours = proto.Float64(30) }), "case.habit.weeknight_hours", "0 to 24 h"},
		{"a second car of no size", days(func(c *daybreakv1.ReadinessCase) {
			c.Second = &daybreakv1.SecondCar{Car: &daybreakv1.CarCase{WallKwhPer_100Mi: proto.Float64(28)}, Miles: c.Miles, WallKw: 1, CircuitKw: 1}
		}), "case.second.car.usable_kwh", "5 to 250 kWh"},
		{"a shared circuit and no power", days(func(c *daybreakv1.ReadinessCase) {
			c.Second = &daybreakv1.SecondCar{Car: c.Car, Miles: c.Miles, WallKw: 1, CircuitKw: 1}
		}), "case.options[2].wall_kw", "above 0"},
		{"no case", func() error {
			_, err := design.CompareTariffs(ctx, &daybreakv1.CompareTariffsRequest{})
			return err
		}, "case", "a value"},
		{"no power to pay for", costs(func(c *daybreakv1.TariffCase) { c.Options[1].WallKw = 0 }), "case.options[1].wall_kw", "0.001 to 50 kW"},
		{"half a day of loads", costs(func(c *daybreakv1.TariffCase) { c.HouseKw = make([]float64, 12) }), "case.house_kw", "24"},
		{"NaN among the loads", costs(func(c *daybreakv1.TariffCase) { c.HouseKw[0] = math.NaN() }), "case.house_kw[0]", "finite"},
		{"a tariff of no list", costs(func(c *daybreakv1.TariffCase) { c.Tariffs = []string{"tariffs/moon"} }), "case.tariffs[0]", "tariffs/aml-everyday"},
		{"a tariff of no form", costs(func(c *daybreakv1.TariffCase) { c.Tariffs = []string{"moon"} }), "case.tariffs[0]", "tariffs/ and its id"},
		{"more than a day takes", costs(func(c *daybreakv1.TariffCase) {
			c.Miles.WeekdayMiles, c.Car.WallKwhPer_100Mi = proto.Float64(1000), proto.Float64(120)
		}), "case.miles", "500 kWh"},
		{"hour 25", costs(func(c *daybreakv1.TariffCase) { c.Stay = &daybreakv1.HomeStay{WeekdayHome: 25} }), "case.stay.weekday_home", "0 to 24 h"},
		{"nothing to fit", fits(&daybreakv1.CompatibilityCase{SettingAmps: proto.Float64(32)}), "case", "inlet and connector"},
		{"half a pair", fits(&daybreakv1.CompatibilityCase{Inlet: daybreakv1.Inlet_INLET_J1772.Enum()}), "case.connector", "inlet is told"},
		{"the other half", fits(&daybreakv1.CompatibilityCase{Receptacle: daybreakv1.Configuration_CONFIGURATION_14_50.Enum()}), "case.plug", "receptacle is told"},
		{"a connector that is none", fits(&daybreakv1.CompatibilityCase{DcInlet: daybreakv1.DCInlet_DC_INLET_CCS1.Enum(), DcConnector: daybreakv1.DCInlet_DC_INLET_NONE.Enum()}), "case.dc_connector", "DC_INLET_CCS1"},
		{"an unknown plug", fits(&daybreakv1.CompatibilityCase{Plug: daybreakv1.Configuration(99).Enum(), Receptacle: daybreakv1.Configuration_CONFIGURATION_14_50.Enum()}), "case.plug", "CONFIGURATION_14_50"},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, _, fields := told(t, c.call())
			require.Equal(t, codes.InvalidArgument, code)
			require.Equal(t, c.field, fields[0].field)
			require.Contains(t, fields[0].says, c.says)
		})
	}
}
