package pricing

// taskID names a task the engine can put into a bill.
type taskID uint8

const (
	taskMobilise taskID = iota
	taskBreaker1P
	taskBreaker2P
	taskBreakerLarge
	taskBreakerGFCI
	taskTandem
	taskNMOpen
	taskNMFish
	taskNMAttic
	taskNMCrawl
	taskEMTSmall
	taskEMTLarge
	taskEMTBend
	taskPVCTrench
	taskPVCExposed
	taskPullSmall
	taskPullLarge
	taskPullFeeder
	taskTrenchMachine
	taskTrenchHand
	taskTrenchGravel
	taskSawConcrete
	taskSawAsphalt
	taskReceptacle20
	taskReceptacle50
	taskReplaceReceptacle
	taskEVSEPlug
	taskEVSEHardwired
	taskEVSEPedestal
	taskCommission
	taskDisconnect
	taskLoadSwitch
	taskLoadManage
	taskServiceOverhead
	taskServiceUnderground
	taskServiceLarge
	taskDrillWood
	taskCoreMasonry
	taskFirestop
	taskAccessHole
	taskPatchHole
	taskUtility
	taskPermitVisit
	taskMCSurface
	taskCableTrench
	taskWhip
	taskRMC
	taskSubpanel
	taskMoveCircuit
	taskRods
	taskBond
	taskSurge
	taskSwap
	taskOldCircuit
	taskIDs
)

// taskCodes spells each task as price books do.
var taskCodes = [taskIDs]string{
	taskMobilise:           "lab.mobilise",
	taskBreaker1P:          "lab.breaker_1p",
	taskBreaker2P:          "lab.breaker_2p",
	taskBreakerLarge:       "lab.breaker_2p_large",
	taskBreakerGFCI:        "lab.breaker_gfci",
	taskTandem:             "lab.tandem_make_space",
	taskNMOpen:             "lab.nm_open",
	taskNMFish:             "lab.nm_fish",
	taskNMAttic:            "lab.nm_attic",
	taskNMCrawl:            "lab.nm_crawl",
	taskEMTSmall:           "lab.emt_half_1",
	taskEMTLarge:           "lab.emt_1q_2",
	taskEMTBend:            "lab.emt_bend",
	taskPVCTrench:          "lab.pvc_trench",
	taskPVCExposed:         "lab.pvc_exposed",
	taskPullSmall:          "lab.pull_small",
	taskPullLarge:          "lab.pull_large",
	taskPullFeeder:         "lab.pull_feeder",
	taskTrenchMachine:      "lab.trench_machine_soil",
	taskTrenchHand:         "lab.trench_hand_soil",
	taskTrenchGravel:       "lab.trench_gravel",
	taskSawConcrete:        "lab.saw_concrete",
	taskSawAsphalt:         "lab.saw_asphalt",
	taskReceptacle20:       "lab.box_receptacle_20",
	taskReceptacle50:       "lab.box_receptacle_50",
	taskReplaceReceptacle:  "lab.replace_receptacle",
	taskEVSEPlug:           "lab.evse_plugin",
	taskEVSEHardwired:      "lab.evse_hardwired",
	taskEVSEPedestal:       "lab.evse_pedestal",
	taskCommission:         "lab.commission",
	taskDisconnect:         "lab.disconnect",
	taskLoadSwitch:         "lab.load_switch",
	taskLoadManage:         "lab.load_manage_ct",
	taskServiceOverhead:    "lab.service_100_200_oh",
	taskServiceUnderground: "lab.service_100_200_ug",
	taskServiceLarge:       "lab.service_200_400",
	taskDrillWood:          "lab.drill_wood_wall",
	taskCoreMasonry:        "lab.core_masonry",
	taskFirestop:           "lab.firestop",
	taskAccessHole:         "lab.access_hole",
	taskPatchHole:          "lab.patch_hole",
	taskUtility:            "lab.utility_coordination",
	taskPermitVisit:        "lab.permit_visit",
	taskMCSurface:          "lab.mc_surface",
	taskCableTrench:        "lab.uf_trench",
	taskWhip:               "lab.lfmc",
	taskRMC:                "lab.rmc",
	taskSubpanel:           "lab.subpanel",
	taskMoveCircuit:        "lab.move_circuit",
	taskRods:               "lab.ground_rods",
	taskBond:               "lab.bond_water_gas",
	taskSurge:              "lab.surge_device",
	taskSwap:               "lab.panel_swap_same",
	taskOldCircuit:         "lab.demo_old_circuit",
}
