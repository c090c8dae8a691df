//! When the drilling line is slipped and cut: at the last chance before the rig's own count is passed. There is a chance
//! whenever the bit is out of the hole or inside the casing, where pipe may hang still for as long as it takes.

use super::{Programme, Step};
use crate::geometry;
use rigwright_physics::hoisting::{CutGoal, CutLength, CutPlan, LineOnDrum, ServiceGoal, cut_plan};
use rigwright_physics::{Formula, Off, Recorder};
use rigwright_well::{Fit, Line};

/// Jobs between two chances, which nothing should interrupt.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Stretch {
    /// Index of its first job.
    pub(crate) first: usize,
    /// Index after its last job.
    pub(crate) end: usize,
    /// Line work of all of them. [J]
    pub(crate) work: f64,
}

/// A time at which line is slipped through, and mostly cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Slip {
    /// Index of the job before which it is done.
    pub before: usize,
    /// Line work since the last cut. [J]
    pub since: f64,
    /// Whether the line is cut; otherwise it is only slipped.
    pub cut: bool,
    /// Length slipped, and cut where it is cut; `None` where no goal is known for the diameter. [m]
    pub length: Option<f64>,
}

/// The plan.
#[derive(Clone, Debug, Default)]
pub(crate) struct LinePlan {
    /// Slips and cuts in order.
    pub slips: Vec<Slip>,
    /// Line work since the last cut at the end of the programme. [J]
    pub since: f64,
}

impl LinePlan {
    /// Cuts alone.
    pub(crate) fn cuts(&self) -> impl Iterator<Item = &Slip> {
        self.slips.iter().filter(|slip| slip.cut)
    }

    /// Line cut in all; `None` where a length is not known. [m]
    pub(crate) fn length(&self) -> Option<f64> {
        self.cuts().map(|cut| cut.length).sum()
    }
}

/// Whether the line may be slipped before a job.
fn chance(fit: &Fit, step: &Step) -> bool {
    // A stand of open hole below the shoe is still as good as the shoe: the rat hole.
    let shoe = geometry::open_from(fit, step.section);
    step.from <= if shoe > 0.0 { shoe + fit.rig.mast.stand } else { 0.0 }
}

/// The programme in stretches between chances.
pub(crate) fn stretches(fit: &Fit, programme: &Programme) -> Vec<Stretch> {
    let mut stretches: Vec<Stretch> = Vec::new();
    for (index, step) in programme.steps.iter().enumerate() {
        match stretches.last_mut() {
            Some(open) if !chance(fit, step) => (open.end, open.work) = (index + 1, open.work + step.line_work),
            _ => stretches.push(Stretch { first: index, end: index + 1, work: step.line_work }),
        }
    }
    stretches
}

/// The plan for a rule: cut after `cut_work`, with this much work on the line today. [J, J]
pub(crate) fn plan(fit: &Fit, programme: &Programme, (cut_work, today): (f64, f64)) -> LinePlan {
    let line = &fit.rig.line;
    let between_slips = cut_work / f64::from(line.slips + 1);
    let mut plan = LinePlan { slips: Vec::new(), since: today };
    let mut slipped = (today / between_slips).floor();
    for stretch in stretches(fit, programme) {
        let (before, since) = (stretch.first, plan.since);
        let next = since + stretch.work;
        if next > cut_work && since > 0.0 {
            plan.slips.push(Slip { before, since, cut: true, length: length(fit, since, &mut Off) });
            (plan.since, slipped) = (0.0, 0.0);
        } else if line.slips > 0 && next > between_slips * (slipped + 1.0) && since > between_slips * slipped {
            let length = length(fit, cut_work, &mut Off).map(|length| length / f64::from(line.slips + 1));
            plan.slips.push(Slip { before, since, cut: false, length });
            slipped = (next / between_slips).floor();
        }
        plan.since += stretch.work;
    }
    plan
}

/// Work that a length of the rig's line may do; `None` where the table does not reach. [J/m]
pub(crate) fn goal<R: Recorder>(line: &Line, rec: &mut R) -> Option<f64> {
    let formula = CutGoal { line_diameter: line.diameter };
    if !CutGoal::RECORD.outside_must(formula.inputs().as_ref()).is_empty() {
        return None;
    }
    let goal = rec.take(formula);
    Some(rec.take(ServiceGoal { service_factor: line.service_factor, goal }))
}

/// Length to cut for the work since the last cut; in half laps of the drum where that is known. [m]
pub(crate) fn length<R: Recorder>(fit: &Fit, line_work: f64, rec: &mut R) -> Option<f64> {
    let line = &fit.rig.line;
    let goal = goal(line, rec)?;
    match fit.rig.drawworks.drum {
        Some(bare_diameter) => {
            let on_drum = LineOnDrum { line_diameter: line.diameter, bare_diameter, goal };
            let CutPlan { length, .. } = cut_plan(&on_drum, line_work, rec);
            Some(length)
        }
        None => Some(rec.take(CutLength { line_work, goal })),
    }
}
