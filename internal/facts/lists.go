package facts

// List is a closed word list: the legal words of every Choice or Set leaf of
// that type.
type List struct {
	Name  string   // the Go type, and the name of the list on the wire
	Words []string // in order; the value of the first word is 1, or bit 0 of a set
	Set   bool     // a leaf of it holds any number of the words
}

// Lists returns every closed word list. Callers must not change them.
func Lists() []List { return lists }

var lists = []List{
	{"Archetype", archetypeWords, false},
	{"Inlet", inletWords, false},
	{"DCInlet", dcInletWords, false},
	{"SuppliedCord", suppliedCordWords, false},
	{"CodeEdition", codeEditionWords, false},
	{"ClimateZone", climateZoneWords, false},
	{"DangerSign", dangerSignWords, true},
	{"Reported", reportedWords, true},
	{"DwellingKind", dwellingKindWords, false},
	{"Tenure", tenureWords, false},
	{"Permission", permissionWords, false},
	{"Parking", parkingWords, false},
	{"Mounting", mountingWords, false},
	{"DetachedFeed", detachedFeedWords, false},
	{"ServiceFeed", serviceFeedWords, false},
	{"Generator", generatorWords, false},
	{"IncomeBand", incomeBandWords, false},
	{"OutletPresent", outletPresentWords, false},
	{"Configuration", configurationWords, false},
	{"Sharing", sharingWords, false},
	{"CurrentUse", currentUseWords, false},
	{"OutletCondition", outletConditionWords, true},
	{"OutletGrade", outletGradeWords, false},
	{"OutletLocation", outletLocationWords, false},
	{"WireSize", wireSizeWords, false},
	{"WireMaterial", wireMaterialWords, false},
	{"WireMethod", wireMethodWords, false},
	{"SettingMeans", settingMeansWords, false},
	{"EquipmentPlug", equipmentPlugWords, false},
	{"Connector", connectorWords, false},
	{"PanelLocation", panelLocationWords, false},
	{"Protection", protectionWords, false},
	{"Crowding", crowdingWords, false},
	{"PanelTrouble", panelTroubleWords, true},
	{"HeatKind", heatKindWords, false},
	{"CoolKind", coolKindWords, false},
	{"BackfeedKind", backfeedKindWords, false},
	{"ReadyForCar", readyForCarWords, false},
	{"MeterOwner", meterOwnerWords, false},
	{"MeterLocation", meterLocationWords, false},
	{"Approver", approverWords, false},
	{"Fuel", fuelWords, false},
	{"Way", wayWords, true},
	{"TrenchSurface", trenchSurfaceWords, false},
	{"WallFinish", wallFinishWords, false},
	{"WorkHeight", workHeightWords, false},
	{"AtticKind", atticKindWords, false},
	{"CrawlKind", crawlKindWords, false},
	{"Soil", soilWords, false},
	{"Connection", connectionWords, false},
	{"SecondVehicleWish", secondVehicleWishWords, false},
	{"NetworkWish", networkWishWords, false},
	{"Timing", timingWords, false},
}
