//! The hoisting system: block and tackle, mast, drawworks, line work; weight, drag and stretch of the string.

pub mod drag;
mod drawworks;
mod handling;
mod line_work;
mod mast;
mod motion;
mod slip_and_cut;
mod stretch;
mod stuck;
mod tackle;
mod weight;

use crate::FormulaRecord;

pub use drag::{
    BitLoad, DragGrid, DragNode, FlowLift, Hanging, StiffnessForce, StringMotion, StringPiece, TensionWithContact,
    TorqueWithContact, Wall, neutral_point,
};
pub use drawworks::{
    BlockSpeedByLine, BlockSpeedByPower, DrawworksPower, DrumDiameter, HookPower, InertiaLoad, LinePull, LineSpeed, ShockLoad,
    StandTime, StoppingDistance,
};
pub use handling::{LongestString, MarginOfOverpull, PumpOpenForce, SlipFactor, SlipLoad, SlipStressRatio, TensionDesignFactor};
pub use line_work::{CasingWork, CutLength, ExcessWeight, RoundTripWork, WorkBetweenDepths};
pub use mast::{
    DeadLineLegLoad, DerrickEfficiency, DerrickLoad, DerrickLoadByEfficiency, DerrickLoadStanding, DrawworksLegLoad,
    EquivalentDerrickLoad, FingerboardLoad, SetbackLoad, StandsRacked,
};
pub use motion::{
    BrakePower, BrakeTorque, Drum, DrumDrive, DrumLayer, Hoist, LayerCourse, LineOnLayer, MeanAcceleration, StopEnergy,
    TripStand, TripTime, TripWay, layer_courses,
};
pub use slip_and_cut::{
    CORED, CutGoal, CutLaps, CutPlan, DrumLap, KELLY_DRILLED, KELLY_REAMED_ONCE, KELLY_REAMED_TWICE, LapsLength, LineJob,
    LineOnDrum, MoveWork, SHORT_TRIP, ServiceGoal, TOP_DRIVE_DRILLED, TOP_DRIVE_REAMED, TrippedString, WorkBetweenCuts, cut_plan,
    line_work, work_of_moves,
};
pub use stretch::{FreeLength, OwnWeightStretch, PullStretch};
pub use stuck::{
    AxialStrain, CakeContactWidth, FreePoint, FreeSection, JarTriggerLoad, Steel, StickingForce, StrainLength, StrainedSection,
    ThermalStrain, TwistedLength, free_point_by_pull, free_point_by_twist, string_stretch, string_twist,
};
pub use tackle::{
    AllowedLinePull, BlockMotion, DeadLineHoisting, DeadLineLowering, FastLineByEfficiency, FastLineHoisting, FastLineLowering,
    HookLoadByFastLine, HookLoadHoisting, HookLoadLowering, LineDesignFactor, LineStanding, SHEAVE_FACTOR, Tackle,
    TackleEfficiency,
};
pub use weight::{
    BuoyancyFactor, BuoyedWeight, EffectiveTension, HookLoad, RiserWeight, TravellingWeight, TrueTension, WeightInMuds,
};

/// The formulas of this system.
pub const RECORDS: &[&[&FormulaRecord]] = &[
    tackle::RECORDS,
    mast::RECORDS,
    drawworks::RECORDS,
    weight::RECORDS,
    drag::RECORDS,
    drag::CONTACT_RECORDS,
    line_work::RECORDS,
    handling::RECORDS,
    stretch::RECORDS,
    stuck::RECORDS,
    slip_and_cut::RECORDS,
    motion::RECORDS,
];
