package facts

import "daybreak/internal/unit"

// Place is the home and its surroundings.
type Place struct {
	PostalCode           Known[string]          // postal code of the home; never a street
	Jurisdiction         Known[string]          // authority whose rules prevail, a row of the jurisdiction table
	CodeEdition          Known[CodeEdition]     // electrical code in force there
	PermitDate           Known[Date]            // day of the permit
	ClimateStation       Known[string]          // weather station whose normals apply
	JanuaryMeanF         Known[unit.Fahrenheit] // mean temperature of January, °F
	ColdestNightF        Known[unit.Fahrenheit] // coldest night of a usual winter, °F
	ClimateZone          Known[ClimateZone]     // building climate region
	TimeZone             Known[string]          // IANA time zone
	Utility              Known[string]          // electric utility
	DangerSigns          Known[DangerSign]      // signs of danger seen
	Reported             Known[Reported]        // things mentioned that raise a caution
	DwellingKind         Known[DwellingKind]    // kind of home
	Tenure               Known[Tenure]          // how the home is held
	Permission           Known[Permission]      // leave to do the work
	YearBuilt            Known[int]             // year the home was built
	FloorAreaSqFt        Known[unit.SquareFeet] // floor area that the load calculation starts from, ft²
	Parking              Known[Parking]         // where the car stands at night
	Mounting             Known[Mounting]        // where the equipment will hang
	DetachedFeed         Known[DetachedFeed]    // what feeds the detached building today
	DetachedFeedAWG      Known[WireSize]        // conductor size of that old feed
	DetachedFeedMaterial Known[WireMaterial]    // conductor metal of that old feed
	ServiceFeed          Known[ServiceFeed]     // how the utility's conductors arrive
	Generator            Known[Generator]       // how a standby generator is connected
	MedicalEquipment     Known[bool]            // somebody at home depends on powered medical equipment
	IncomeBand           Known[IncomeBand]      // income as a share of the area median
	TractEligible        Known[bool]            // the census tract is eligible for location-bound programmes
}

func placeLeaves() []*Leaf {
	return []*Leaf{
		text("place.postal_code", postalText, func(f *Facts) *Known[string] { return &f.Place.PostalCode }),
		text("place.jurisdiction", idText, func(f *Facts) *Known[string] { return &f.Place.Jurisdiction }),
		choice("place.code_edition", "CodeEdition", codeEditionWords, func(f *Facts) *Known[CodeEdition] { return &f.Place.CodeEdition }),
		day("place.permit_date", 2017, func(f *Facts) *Known[Date] { return &f.Place.PermitDate }),
		text("place.climate_station", idText, func(f *Facts) *Known[string] { return &f.Place.ClimateStation }),
		number("place.january_mean_f", "°F", -40, 80, 1, func(f *Facts) *Known[unit.Fahrenheit] { return &f.Place.JanuaryMeanF }),
		number("place.coldest_night_f", "°F", -60, 80, 1, func(f *Facts) *Known[unit.Fahrenheit] { return &f.Place.ColdestNightF }),
		choice("place.climate_zone", "ClimateZone", climateZoneWords, func(f *Facts) *Known[ClimateZone] { return &f.Place.ClimateZone }),
		text("place.time_zone", zoneText, func(f *Facts) *Known[string] { return &f.Place.TimeZone }),
		text("place.utility", idText, func(f *Facts) *Known[string] { return &f.Place.Utility }),
		set("place.danger_signs", "DangerSign", dangerSignWords, func(f *Facts) *Known[DangerSign] { return &f.Place.DangerSigns }),
		set("place.reported", "Reported", reportedWords, func(f *Facts) *Known[Reported] { return &f.Place.Reported }),
		choice("place.dwelling_kind", "DwellingKind", dwellingKindWords, func(f *Facts) *Known[DwellingKind] { return &f.Place.DwellingKind }),
		choice("place.tenure", "Tenure", tenureWords, func(f *Facts) *Known[Tenure] { return &f.Place.Tenure }),
		choice("place.permission", "Permission", permissionWords, func(f *Facts) *Known[Permission] { return &f.Place.Permission }),
		whole("place.year_built", "", 1700, 2035, func(f *Facts) *Known[int] { return &f.Place.YearBuilt }),
		number("place.floor_area_sqft", "ft²", 200, 20000, 0, func(f *Facts) *Known[unit.SquareFeet] { return &f.Place.FloorAreaSqFt }),
		choice("place.parking", "Parking", parkingWords, func(f *Facts) *Known[Parking] { return &f.Place.Parking }),
		choice("place.mounting", "Mounting", mountingWords, func(f *Facts) *Known[Mounting] { return &f.Place.Mounting }),
		choice("place.detached_feed", "DetachedFeed", detachedFeedWords, func(f *Facts) *Known[DetachedFeed] { return &f.Place.DetachedFeed }),
		choice("place.detached_feed_awg", "WireSize", wireSizeWords, func(f *Facts) *Known[WireSize] { return &f.Place.DetachedFeedAWG }),
		choice("place.detached_feed_material", "WireMaterial", wireMaterialWords, func(f *Facts) *Known[WireMaterial] { return &f.Place.DetachedFeedMaterial }),
		choice("place.service_feed", "ServiceFeed", serviceFeedWords, func(f *Facts) *Known[ServiceFeed] { return &f.Place.ServiceFeed }),
		choice("place.generator", "Generator", generatorWords, func(f *Facts) *Known[Generator] { return &f.Place.Generator }),
		flag("place.medical_equipment", func(f *Facts) *Known[bool] { return &f.Place.MedicalEquipment }),
		choice("place.income_band", "IncomeBand", incomeBandWords, func(f *Facts) *Known[IncomeBand] { return &f.Place.IncomeBand }),
		flag("place.tract_eligible", func(f *Facts) *Known[bool] { return &f.Place.TractEligible }),
	}
}
