//! The checked well and rig as plain data, and the situations of the job.
//!
//! Every value is SI and sane: only `wellfile` makes these, so whoever holds one need not check again.
//! An input that nobody gave and that has no honest default is `None` and makes the answers that need it
//! `unknown`. Nothing derived is kept here, except the path of the well, which is the survey in another form.

mod casing;
mod control;
mod engines;
mod formation;
mod mud;
mod mud_report;
mod rig;
mod section;
mod situation;
mod string;
mod tally;
mod watched;
mod well;

pub use casing::{Casing, CementWait, LeakOff};
pub use control::{
    Crossover, Diverter, LastDone, ManagedPressure, Riser, RotatingSeal, SafetyValve, Separator, ShallowGas, ShearTest,
};
pub use engines::{Aspiration, Emergency, FuelPoint, LargestMotor, Sets};
pub use formation::{Formation, Geotherm, Heat, Rock};
pub use mud::{LossMethod, Model, Mud, MudKind, Reading, Rheogram};
pub use mud_report::{CandidateMud, Filtrate, Prices, Retort, Sticking};
pub use rig::{
    Accumulator, Block, Crown, Drawworks, Drive, DriveChain, DriveKind, Drives, Line, Liner, Mast, MotorCurrent, Pits, Preventer,
    PreventerKind, Pump, PumpKind, RaisingLine, Returns, Rig, Slips, SurfaceCombination, SurfaceLines, SurfaceWay, Tongs,
};
pub use section::{Cleaning, Drilling, HookLoadReading, Lie, Progress, ReturnTo, Section, SlowRate, Slug, Tripping};
pub use situation::{Hung, Motion, Operation, Situation};
pub use string::{Joint, Part, PartKind, WearClass};
pub use tally::{Piece, PieceKind, RANGES, Tally};
pub use watched::{Kept, Parts, Watched, note, noted};
pub use well::{CasingFactors, DesignKick, Friction, Heave, Margins, Reserves, Sea, Site, Well, WellKind};

/// A well and the rig that is to drill it: what a review is asked of.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The well.
    pub well: Well,
    /// The rig.
    pub rig: Rig,
}

impl Fit {
    /// A well and a rig, brought together.
    pub fn new(well: Well, rig: Rig) -> Fit {
        watched::placed(Fit { well, rig })
    }

    /// The parts in which this differs from another; all of them where something differs whose readers are not noted.
    pub fn differs(&self, other: &Fit) -> Parts {
        watched::difference(self, other)
    }

    /// The riser through which a section is drilled; `None` with preventers at surface, and where the mud goes to the sea bed.
    pub fn riser(&self, section: usize) -> Option<&Riser> {
        let through = self.well.sea_bed().is_some() && self.well.sections[section].returns == ReturnTo::Surface;
        self.rig.riser.as_ref().filter(|_| through)
    }

    /// Lines strung between the blocks for what is done in a section: casing may be run on others than the drill string.
    pub fn lines_strung(&self, section: usize, operation: Operation) -> u32 {
        let casing = self.well.sections[section].casing.as_ref().filter(|_| operation == Operation::RunningCasing);
        casing.and_then(|casing| casing.lines).unwrap_or(self.rig.line.strung)
    }

    /// Greatest speed of the block with those lines: the drum turns no faster, so more lines make a slower block. [m/s]
    pub fn block_speed(&self, section: usize, operation: Operation) -> f64 {
        let (own, strung) = (self.rig.line.strung, self.lines_strung(section, operation));
        *self.rig.drawworks.block_speed * f64::from(own) / f64::from(strung)
    }

    /// Depth of the sea bed where a section's mud goes to it. [m]
    pub fn open_to_sea(&self, section: usize) -> Option<f64> {
        self.well.sea_bed().filter(|_| self.well.sections[section].returns == ReturnTo::SeaBed)
    }
}
