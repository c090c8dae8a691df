//! Slip and cut: how much work a foot of line may do, how long a cut is in laps of the drum, and when it is due.
//!
//! Work by operation is added up as API RP 9B does. What the eye sees on the line goes before any count.

use super::line_work::{CasingWork, CutLength, RoundTripWork, WorkBetweenDepths};
use crate::field::{FOOT, INCH, POUND_FORCE};
use crate::{Formula, FormulaRecord, Kind, Recorder, formula};
use std::f64::consts::PI;

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[
    CutGoal::RECORD,
    ServiceGoal::RECORD,
    DrumLap::RECORD,
    CutLaps::RECORD,
    LapsLength::RECORD,
    WorkBetweenCuts::RECORD,
    MoveWork::RECORD,
];

/// A ton-mile: a short ton moved a mile. [J]
const TON_MILE: f64 = 2000.0 * POUND_FORCE * 5280.0 * FOOT;

/// Passes of a kelly that only drills. [-]
pub const KELLY_DRILLED: f64 = 2.0;
/// Passes of a kelly that reams each single once. [-]
pub const KELLY_REAMED_ONCE: f64 = 3.0;
/// Passes of a kelly that reams each single twice. [-]
pub const KELLY_REAMED_TWICE: f64 = 4.0;
/// Passes of a top drive that only drills: one way down with the string, one up with the empty block, rounded up. [-]
pub const TOP_DRIVE_DRILLED: f64 = 1.0;
/// Passes of a top drive that back-reams each stand once, rounded up. [-]
pub const TOP_DRIVE_REAMED: f64 = 2.0;
/// Passes of coring. [-]
pub const CORED: f64 = 2.0;
/// Passes of a short trip: up and down once is one round trip. [-]
pub const SHORT_TRIP: f64 = 1.0;

formula! {
    /// Work that a length of drilling line may do before it is cut, by its diameter, at a design factor of 5.
    ///
    /// 8, 12, 16, 20, 24 ton-miles a foot for 1 to 1 1/2 in and so on to 2 1/8 in: the table as a straight line.
    pub struct CutGoal;
    slug "cut-goal";
    equation "G = 32 d - 24";
    law Empirical("in, ton-mile/ft");
    source "drilling contractor's ton-mile worksheet after API RP 9B";
    given {
        /// diameter of the line
        line_diameter "d" Diameter must between(1.0 * INCH, 2.125 * INCH);
    }
    /// goal of line work per length cut
    gives "G" WorkPerLength;
    value |f| (32.0 * f.line_diameter / INCH - 24.0) * TON_MILE / FOOT
}

formula! {
    /// Work that a length of line may do at another design factor than 5.
    ///
    /// The service factor is read from the curve of API RP 9B: 1 at 5; about 0.58 at 3 (from memory).
    pub struct ServiceGoal;
    slug "service-goal";
    equation "G_s = s G";
    law Homogeneous;
    source "API RP 9B, service factor";
    given {
        /// service factor
        service_factor "s" Ratio must NON_NEGATIVE valid between(0.3, 1.3) default 1.0;
        /// goal of line work per length cut at a design factor of 5
        goal "G" WorkPerLength must NON_NEGATIVE;
    }
    /// goal of line work per length cut
    gives "G_s" WorkPerLength;
    value |f| f.service_factor * f.goal
}

formula! {
    /// Length of line on one lap of the bare drum.
    pub struct DrumLap;
    slug "drum-lap";
    equation "l = π (D + d)";
    law Homogeneous;
    source "geometry";
    given {
        /// diameter of the bare drum
        bare_diameter "D" Diameter must NON_NEGATIVE;
        /// diameter of the line
        line_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// length of a lap
    gives "l" Depth;
    value |f| PI * (f.bare_diameter + f.line_diameter)
}

formula! {
    /// Laps to cut: a half lap more than the whole laps, so that the line crosses over itself at a new place each time.
    pub struct CutLaps;
    slug "cut-laps";
    equation "n = ⌊L/l⌋ + 1/2";
    law Homogeneous;
    source "API RP 9B: the cut is no whole number of laps; half laps as in its table (from memory)";
    given {
        /// length asked for; it is met to within half a lap
        cut_length "L" Depth must NON_NEGATIVE;
        /// length of a lap
        lap "l" Depth must at_least(1e-3);
    }
    /// laps
    gives "n" Count;
    value |f| (f.cut_length / f.lap).floor() + 0.5
}

formula! {
    /// Length of line in a number of laps.
    pub struct LapsLength;
    slug "laps-length";
    equation "L = n l";
    law Homogeneous;
    source "geometry";
    given {
        /// laps
        laps "n" Count must NON_NEGATIVE;
        /// length of a lap
        lap "l" Depth must NON_NEGATIVE;
    }
    /// length
    gives "L" Depth;
    value |f| f.laps * f.lap
}

formula! {
    /// Line work after which a length is to be cut.
    pub struct WorkBetweenCuts;
    slug "work-between-cuts";
    equation "T = G L";
    law Homogeneous;
    source "API RP 9B";
    given {
        /// goal of line work per length cut
        goal "G" WorkPerLength must NON_NEGATIVE;
        /// length of the cut
        cut_length "L" Depth must NON_NEGATIVE;
    }
    /// line work
    gives "T" LineWork;
    value |f| f.goal * f.cut_length
}

formula! {
    /// Line work of one move of the block, up or down, from the load it really carried.
    ///
    /// The sum over all moves is usually more than the rules give: they leave out drag, jarring and every extra move.
    pub struct MoveWork;
    slug "line-work-of-a-move";
    equation "T = W s";
    law Homogeneous;
    source "definition of line work";
    given {
        /// hook load, block included
        hook_load "W" Force must NON_NEGATIVE;
        /// way of the block
        way "s" Depth must NON_NEGATIVE;
    }
    /// line work
    gives "T" LineWork;
    value |f| f.hook_load * f.way
}

/// What hangs on the hook on a trip.
#[derive(Clone, Copy, Debug)]
pub struct TrippedString {
    /// Length of a stand; of a joint for casing. [m]
    pub stand: f64,
    /// Buoyed weight per length of the pipe, joints included. [N/m]
    pub buoyed_weight: f64,
    /// Weight of block, hook and top drive. [N]
    pub travelling_weight: f64,
    /// Weight in mud by which collars and tools exceed the same length of pipe. [N]
    pub excess_weight: f64,
}

/// An operation that works the line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LineJob {
    /// Out of the hole from this depth and back. [m]
    RoundTrip(f64),
    /// Drilling, coring or a short trip between two depths, by its number of passes.
    Between {
        /// Depth at the start; of the shallower end of a short trip. [m]
        from: f64,
        /// Depth at the end. [m]
        to: f64,
        /// Passes: 2, 3 or 4 with a kelly, 1 or 2 with a top drive, 2 coring, 1 short trip. [-]
        passes: f64,
    },
    /// Running casing to this depth; the excess weight does not count. [m]
    Casing(f64),
}

/// Line work of an operation by the rules of API RP 9B. [J]
pub fn line_work<R: Recorder>(job: LineJob, string: &TrippedString, rec: &mut R) -> f64 {
    let TrippedString { stand, buoyed_weight, travelling_weight, excess_weight } = *string;
    let trip =
        |depth: f64, rec: &mut R| rec.take(RoundTripWork { depth, stand, buoyed_weight, travelling_weight, excess_weight });
    match job {
        LineJob::RoundTrip(depth) => trip(depth, rec),
        LineJob::Between { from, to, passes } => {
            let (shallower, deeper) = (trip(from.min(to), rec), trip(from.max(to), rec));
            rec.take(WorkBetweenDepths { passes, deeper, shallower })
        }
        LineJob::Casing(depth) => rec.take(CasingWork { depth, joint: stand, buoyed_weight, travelling_weight }),
    }
}

/// Line work of moves as they happened: hook load and way of each, up or down. [J]
pub fn work_of_moves<R: Recorder>(moves: &[(f64, f64)], rec: &mut R) -> f64 {
    let work = |&(load, way): &(f64, f64)| MoveWork { hook_load: load.abs(), way: way.abs() };
    let sum = moves.iter().map(|one| work(one).value()).sum();
    if let Some(largest) = moves.iter().max_by(|a, b| work(a).value().total_cmp(&work(b).value())) {
        rec.note(|| "the move with the most work in full".into());
        rec.take(work(largest));
    }
    const COLUMNS: &[(&str, Kind)] =
        &[("hook load", Kind::Force), ("way of the block", Kind::Depth), ("line work", Kind::LineWork)];
    rec.table("line work by move", COLUMNS, || {
        moves.iter().map(|one| vec![one.0.abs(), one.1.abs(), work(one).value()]).collect()
    });
    sum
}

/// A cut and the work it stands for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutPlan {
    /// Laps of the bare drum, always with a half. [-]
    pub laps: f64,
    /// Length to cut. [m]
    pub length: f64,
    /// Line work after which it is due. [J]
    pub work: f64,
}

/// Line and drum.
#[derive(Clone, Copy, Debug)]
pub struct LineOnDrum {
    /// Diameter of the line. [m]
    pub line_diameter: f64,
    /// Diameter of the bare drum. [m]
    pub bare_diameter: f64,
    /// Goal of line work per length cut, service factor included. [J/m]
    pub goal: f64,
}

/// The cut that is due after about this much line work: rounded to half laps, with the work that it really stands for.
pub fn cut_plan<R: Recorder>(line: &LineOnDrum, line_work: f64, rec: &mut R) -> CutPlan {
    let LineOnDrum { line_diameter, bare_diameter, goal } = *line;
    let cut_length = rec.take(CutLength { line_work, goal });
    let lap = rec.take(DrumLap { bare_diameter, line_diameter });
    let laps = rec.take(CutLaps { cut_length, lap });
    let length = rec.take(LapsLength { laps, lap });
    CutPlan { laps, length, work: rec.take(WorkBetweenCuts { goal, cut_length: length }) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Off;

    const STRING: TrippedString =
        TrippedString { stand: 28.35, buoyed_weight: 256.0, travelling_weight: 3.3e5, excess_weight: 8.8e4 };

    /// A round trip as the rule has it is the sum of the moves of the block.
    #[test]
    fn law_rule_is_the_sum_of_moves() {
        let stands = 60;
        let mut moves = Vec::new();
        for below in 1..=stands {
            let load = STRING.travelling_weight + STRING.excess_weight + STRING.buoyed_weight * STRING.stand * f64::from(below);
            // Out: the string up, the empty block down; in: the empty block up, the string down.
            moves.extend([(load, STRING.stand), (STRING.travelling_weight, -STRING.stand)]);
            moves.extend([(STRING.travelling_weight, STRING.stand), (load, -STRING.stand)]);
        }
        let rule = line_work(LineJob::RoundTrip(STRING.stand * f64::from(stands)), &STRING, &mut Off);
        assert!((work_of_moves(&moves, &mut Off) / rule - 1.0).abs() < 1e-12);
    }

    /// Drilling in two steps works the line as much as in one; a trip up and down between two depths is one pass.
    #[test]
    fn law_work_between_depths_adds_up() {
        let between = |from, to, passes| line_work(LineJob::Between { from, to, passes }, &STRING, &mut Off);
        let whole = between(1000.0, 2500.0, KELLY_REAMED_ONCE);
        let parts = between(1000.0, 1700.0, KELLY_REAMED_ONCE) + between(1700.0, 2500.0, KELLY_REAMED_ONCE);
        assert!((parts / whole - 1.0).abs() < 1e-12);
        assert!((whole / between(2500.0, 1000.0, SHORT_TRIP) - KELLY_REAMED_ONCE).abs() < 1e-12);
        let casing = line_work(LineJob::Casing(2500.0), &STRING, &mut Off);
        let light = TrippedString { excess_weight: 0.0, ..STRING };
        assert!((2.0 * casing / line_work(LineJob::RoundTrip(2500.0), &light, &mut Off) - 1.0).abs() < 1e-12);
    }

    /// A cut always ends with half a lap, is within half a lap of what the work asks for, and its work matches its length.
    #[test]
    fn law_cuts_end_on_half_laps() {
        let line_diameter = 1.375 * INCH;
        let goal = CutGoal { line_diameter }.value();
        let line = LineOnDrum { line_diameter, bare_diameter: 0.71, goal };
        for step in 0..50 {
            let work = f64::from(step) * 1e9;
            let plan = cut_plan(&line, work, &mut Off);
            let lap = PI * (0.71 + line_diameter);
            assert!((plan.laps.fract() - 0.5).abs() < 1e-12);
            assert!((plan.length - work / goal).abs() <= 0.5 * lap * (1.0 + 1e-12));
            assert!((plan.work - plan.length * goal).abs() < 1e-3);
        }
    }
}
