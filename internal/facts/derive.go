package facts

import (
	"strings"

	"daybreak/internal/unit"
)

// DeriveWithin fills what follows from other leaves alone. It touches no leaf
// that is told, derived or narrowed, and may be called again when more is
// known. asOf is the date the household is looked at.
//
// Source: the "derived from" rules of the fact list; NEC 110.14(C) for
// terminals; the rest usual practice, named by each leaf's basis.
func DeriveWithin(f *Facts, asOf Date) {
	f.Vehicle.deriveWithin()
	f.SecondVehicle.deriveWithin()
	f.deriveDriving()
	f.derivePlace()
	f.derivePanel()
	f.Outlet.deriveWithin(f, asOf)
	f.OtherOutlet.deriveWithin(f, asOf)
	f.deriveRoute()
	f.deriveWishes()
}

// fill derives a leaf that has no value and is not narrowed to some.
func fill[T comparable](k *Known[T], v T, b Basis) {
	if k.state < Narrowed {
		*k = Derive(v, b)
	}
}

func (v *Vehicle) deriveWithin() {
	if kind, ok := v.Archetype.Get(); ok {
		fill(&v.PetrolBackup, kind == ArchetypePhevSedan || kind == ArchetypePhevSuv, FromAnotherAnswer)
	}
	if kw, ok := v.OnboardChargerKW.Get(); ok {
		fill(&v.MaxACAmps, unit.Amps(clamp(float64(kw)*1000/240, 6, 80)), FromAnotherAnswer)
	}
}

func (f *Facts) deriveDriving() {
	d := &f.Driving
	if miles, ok := d.AnnualMiles.Get(); ok {
		fill(&d.WeekdayMiles, unit.Miles(clamp(float64(miles)/365, 0, 400)), FromAnotherAnswer)
	}
	if miles, ok := d.WeekdayMiles.Get(); ok {
		fill(&d.SecondVehicleDailyMiles, 0.55*miles, FromClassPrior)
	}
}

func (f *Facts) derivePlace() {
	p := &f.Place
	if p.Tenure.Is(TenureOwn) {
		fill(&p.Permission, PermissionWritten, FromAnotherAnswer)
	}
	parking, known := p.Parking.Get()
	if !known {
		return
	}
	if parking == ParkingAttached {
		fill(&p.Mounting, MountingInside, FromAnotherAnswer)
	}
	if parking != ParkingDetached && parking != ParkingCarport {
		fill(&p.DetachedFeed, DetachedFeedNone, FromAnotherAnswer)
	}
}

func (o *Outlet) deriveWithin(f *Facts, asOf Date) {
	if o.Present.Is(OutletPresentNone) {
		return
	}
	if face, ok := o.Configuration.Get(); ok {
		if face <= ConfigurationTTx30 { // the list begins with the 120 V faces
			fill(&o.Volts, 120, FromAnotherAnswer)
		} else if volts, ok := f.Panel.SupplyVolts.Get(); ok {
			fill(&o.Volts, volts, FromAnotherAnswer)
		}
		if face == Configuration5x15GFCI {
			fill(&o.GFCI, true, FromAnotherAnswer)
		}
	}
	if !o.Present.Has() && !o.Configuration.Has() {
		return
	}
	fill(&o.WireMethod, WireMethodNm, FromSaferReading)
	if where, ok := outletLocation(&f.Place); ok {
		fill(&o.Location, where, FromAnotherAnswer)
	}
	if year, ok := f.Place.YearBuilt.Get(); ok && !asOf.IsZero() {
		fill(&o.AgeYears, clamp(float64(int(asOf.Year)-year), 0, 120), FromAnotherAnswer)
	}
}

func outletLocation(p *Place) (OutletLocation, bool) {
	mounting, mountingKnown := p.Mounting.Get()
	parking, parkingKnown := p.Parking.Get()
	switch {
	case mountingKnown && mounting != MountingInside:
		return OutletLocationOutdoor, true
	case !mountingKnown || !parkingKnown:
		return 0, false
	case parking == ParkingAttached || parking == ParkingDetached:
		return OutletLocationGarage, true
	}
	return OutletLocationIndoor, true
}

func (f *Facts) deriveWishes() {
	if f.SecondVehicle != (Vehicle{}) && anyTold(f, "second_vehicle.") {
		fill(&f.Wishes.SecondVehicle, SecondVehicleWishNow, FromAnotherAnswer)
	}
	if owned, ok := f.Equipment.Owned.Get(); ok {
		fill(&f.Wishes.BringOwnEquipment, owned, FromAnotherAnswer)
	}
	e := &f.Equipment
	if amps, ok := e.RatingAmps.Get(); ok {
		fill(&e.SettingAmps, amps, FromAnotherAnswer)
	}
	if e.Owned.Is(true) {
		fill(&e.SettingMeans, SettingMeansNone, FromSaferReading)
	}
}

func anyTold(f *Facts, prefix string) bool {
	for _, l := range leaves {
		if strings.HasPrefix(l.Path, prefix) && l.At(f).State() == Told {
			return true
		}
	}
	return false
}

func clamp(x, low, high float64) float64 { return min(max(x, low), high) }
