package facts

// SettingMeans is how the current setting is held; an app never counts as a limit. Zero is no word at all.
type SettingMeans uint8

const (
	SettingMeansNone SettingMeans = iota + 1
	SettingMeansRestricted
	SettingMeansApp
)

var settingMeansWords = []string{
	"none", "restricted", "app",
}

// String is the word itself.
func (v SettingMeans) String() string { return wordAt(settingMeansWords, uint8(v)) }

// EquipmentPlug is the plug of the equipment; none means permanently wired. Zero is no word at all.
type EquipmentPlug uint8

const (
	EquipmentPlugNone EquipmentPlug = iota + 1
	EquipmentPlug5x15
	EquipmentPlug5x15GFCI
	EquipmentPlug1x15
	EquipmentPlug5x20
	EquipmentPlugTTx30
	EquipmentPlug6x15
	EquipmentPlug6x20
	EquipmentPlug6x30
	EquipmentPlug6x50
	EquipmentPlug10x30
	EquipmentPlug10x50
	EquipmentPlug14x30
	EquipmentPlug14x50
	EquipmentPlug14x60
	EquipmentPlugL6x20
	EquipmentPlugL6x30
	EquipmentPlugL14x30
)

var equipmentPlugWords = []string{
	"none", "5-15", "5-15 GFCI", "1-15", "5-20", "TT-30", "6-15", "6-20", "6-30", "6-50", "10-30", "10-50", "14-30",
	"14-50", "14-60", "L6-20", "L6-30", "L14-30",
}

// String is the word itself.
func (v EquipmentPlug) String() string { return wordAt(equipmentPlugWords, uint8(v)) }

// Connector is the connector at the vehicle end of the equipment. Zero is no word at all.
type Connector uint8

const (
	ConnectorJ1772 Connector = iota + 1
	ConnectorJ3400
)

var connectorWords = []string{
	"J1772", "J3400",
}

// String is the word itself.
func (v Connector) String() string { return wordAt(connectorWords, uint8(v)) }
