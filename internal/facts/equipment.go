package facts

import "daybreak/internal/unit"

// Equipment is charging equipment the driver already owns.
type Equipment struct {
	Owned        Known[bool]          // the driver already owns charging equipment
	RatingAmps   Known[unit.Amps]     // rating on its label, A
	SettingAmps  Known[unit.Amps]     // current it is set to, A
	SettingMeans Known[SettingMeans]  // how that setting is held
	Plug         Known[EquipmentPlug] // its plug; none means permanently wired
	Connector    Known[Connector]     // its connector at the vehicle
	CableFeet    Known[unit.Feet]     // length of its cable, ft
	Listed       Known[bool]          // it carries the mark of a testing laboratory
	Networked    Known[bool]          // it reports over a network
}

func equipmentLeaves() []*Leaf {
	return []*Leaf{
		flag("equipment.owned", func(f *Facts) *Known[bool] { return &f.Equipment.Owned }),
		number("equipment.rating_amps", "A", 6, 80, 1, func(f *Facts) *Known[unit.Amps] { return &f.Equipment.RatingAmps }),
		number("equipment.setting_amps", "A", 6, 80, 1, func(f *Facts) *Known[unit.Amps] { return &f.Equipment.SettingAmps }),
		choice("equipment.setting_means", "SettingMeans", settingMeansWords, func(f *Facts) *Known[SettingMeans] { return &f.Equipment.SettingMeans }),
		choice("equipment.plug", "EquipmentPlug", equipmentPlugWords, func(f *Facts) *Known[EquipmentPlug] { return &f.Equipment.Plug }),
		choice("equipment.connector", "Connector", connectorWords, func(f *Facts) *Known[Connector] { return &f.Equipment.Connector }),
		number("equipment.cable_feet", "ft", 0, 25, 1, func(f *Facts) *Known[unit.Feet] { return &f.Equipment.CableFeet }),
		flag("equipment.listed", func(f *Facts) *Known[bool] { return &f.Equipment.Listed }),
		flag("equipment.networked", func(f *Facts) *Known[bool] { return &f.Equipment.Networked }),
	}
}
