//! The hoisting system: block and tackle, mast, drawworks, line work; weight, drag and stretch of the string.

pub mod drag;
mod drawworks;
mod handling;
mod line_work;
mod mast;
mod stretch;
mod tackle;
mod weight;

use crate::FormulaRecord;

pub use drag::{BitLoad, DragGrid, DragNode, Hanging, StringMotion, StringPiece, neutral_point};
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
pub use stretch::{FreeLength, OwnWeightStretch, PullStretch};
pub use tackle::{
    AllowedLinePull, BlockMotion, DeadLineHoisting, DeadLineLowering, FastLineByEfficiency, FastLineHoisting, FastLineLowering,
    HookLoadByFastLine, HookLoadHoisting, HookLoadLowering, LineDesignFactor, LineStanding, SHEAVE_FACTOR, Tackle,
    TackleEfficiency,
};
pub use weight::{BuoyancyFactor, BuoyedWeight, EffectiveTension, HookLoad, TravellingWeight, TrueTension, WeightInMuds};

/// The formulas of this system.
pub const RECORDS: &[&[&FormulaRecord]] = &[
    tackle::RECORDS,
    mast::RECORDS,
    drawworks::RECORDS,
    weight::RECORDS,
    drag::RECORDS,
    line_work::RECORDS,
    handling::RECORDS,
    stretch::RECORDS,
];
