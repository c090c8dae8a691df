//! The record of the drilling line: job by job what it works, where it is slipped and where it is cut, and what is left of it.
//!
//! Jobs, plan and lengths are those of the questions on line work. What the crew measures is left to the crew.

use crate::programme::cuts::{self, Slip};
use crate::programme::{Programme, Step};
use crate::{Basis, Remark};
use rigwright_physics::hoisting::{CutGoal, DrumLap, ServiceGoal};
use rigwright_physics::{Formula, Kind, Off};
use rigwright_well::Fit;

/// The rig's own rule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CutRule {
    /// Line work after which the rig cuts. [J]
    pub cut_work: f64,
    /// Line work since the last cut, today. [J]
    pub today: f64,
    /// Times that the line is slipped between two cuts, without cutting.
    pub slips: u32,
}

/// How much work a length of this line may do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineGoal {
    /// At a design factor of 5, by the diameter alone. [J/m]
    pub at_five: f64,
    /// Share of it at the design factor of this line. [-]
    pub service_factor: f64,
    /// The goal that lengths are worked out by. [J/m]
    pub goal: f64,
    /// Where the first comes from, and where the share.
    pub sources: [&'static str; 2],
}

/// A time at which the line is moved on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MovedOn {
    /// The job before which it is done.
    pub job: Step,
    /// Measured depth of the hole then. [m]
    pub hole: f64,
    /// Line work since the last cut. [J]
    pub since: f64,
    /// Length drawn off the reel; `None` where no goal is known for the diameter. [m]
    pub slipped: Option<f64>,
    /// Whether the line is cut as well.
    pub cut: bool,
    /// Length cut off at the drum, for a cut. [m]
    pub length: Option<f64>,
    /// The same in laps of the bare drum, where that is known. [-]
    pub laps: Option<f64>,
    /// Line left on the storage reel after it; below nought it does not suffice. [m]
    pub on_reel: Option<f64>,
}

/// A job that works the line, or before which it is moved on.
#[derive(Clone, Debug, PartialEq)]
pub struct WorkedJob {
    /// The job with its line work.
    pub step: Step,
    /// What is done before it: indices of [`LineRecord::moved`].
    pub before: Vec<usize>,
    /// Line work since the last cut when it ends; `None` without the rig's rule. [J]
    pub since: Option<f64>,
    /// Line work of the programme when it ends. [J]
    pub total: f64,
}

/// The record.
#[derive(Clone, Debug)]
pub struct LineRecord {
    /// The rig's rule; `None` where an entry of it is missing.
    pub rule: Option<CutRule>,
    /// The goal; `None` for a diameter that the table does not reach.
    pub goal: Option<LineGoal>,
    /// Slips and cuts in order.
    pub moved: Vec<MovedOn>,
    /// Job by job.
    pub jobs: Vec<WorkedJob>,
    /// Line cut off in all; `None` where a length is not known. [m]
    pub cut: Option<f64>,
    /// What to beware of.
    pub cautions: Vec<Remark>,
}

impl LineRecord {
    /// Line work of the programme. [J]
    pub fn total(&self) -> f64 {
        self.jobs.last().map_or(0.0, |job| job.total)
    }

    /// Line work since the last cut at the end of the programme. [J]
    pub fn since(&self) -> Option<f64> {
        self.jobs.last().map_or(self.rule.map(|rule| rule.today), |job| job.since)
    }

    /// How often the line is cut.
    pub fn cuts(&self) -> usize {
        self.moved.iter().filter(|moved| moved.cut).count()
    }

    /// Line left on the storage reel at the end; `None` where it is not given or a length is not known. [m]
    pub fn left(&self, fit: &Fit) -> Option<f64> {
        self.moved.last().map_or(fit.rig.line.on_reel, |moved| moved.on_reel)
    }
}

/// The record of a fit's whole programme.
pub fn line_record(fit: &Fit) -> LineRecord {
    let basis = Basis::new(fit);
    let programme = basis.programme();
    let line = &fit.rig.line;
    let rule = line.cut_work.zip(line.work_since_cut).map(|(cut_work, today)| CutRule { cut_work, today, slips: line.slips });
    let plan = rule.map(|rule| cuts::plan(fit, programme, (rule.cut_work, rule.today)));
    let slips = plan.as_ref().map_or(&[][..], |plan| plan.slips.as_slice());
    let mut record = LineRecord {
        rule,
        goal: goal(fit),
        moved: rule.map_or_else(Vec::new, |rule| moved(fit, programme, &rule, slips)),
        jobs: jobs(programme, rule, slips),
        cut: plan.as_ref().and_then(cuts::LinePlan::length),
        cautions: Vec::new(),
    };
    record.cautions = cautions(fit, programme, &record);
    record
}

fn goal(fit: &Fit) -> Option<LineGoal> {
    let line = &fit.rig.line;
    let goal = cuts::goal(line, &mut Off)?;
    let at_five = CutGoal { line_diameter: line.diameter }.value();
    let sources = [CutGoal::RECORD.source, ServiceGoal::RECORD.source];
    Some(LineGoal { at_five, service_factor: line.service_factor, goal, sources })
}

/// Slips and cuts with what each draws off the reel: a cut draws what the slips before it have not drawn already.
fn moved(fit: &Fit, programme: &Programme, rule: &CutRule, slips: &[Slip]) -> Vec<MovedOn> {
    let line = &fit.rig.line;
    let times = f64::from(rule.slips + 1);
    // Slips that the work on the line today says were made already.
    let made = (rule.today / (rule.cut_work / times)).floor().min(f64::from(rule.slips));
    let mut drawn = cuts::length(fit, rule.cut_work, &mut Off).map(|length| made * length / times);
    let lap = fit.rig.drawworks.drum.map(|bare_diameter| DrumLap { bare_diameter, line_diameter: line.diameter }.value());
    let mut on_reel = line.on_reel;
    let mut all = Vec::with_capacity(slips.len());
    for slip in slips {
        let Some(job) = programme.steps.get(slip.before) else { continue };
        let slipped = if slip.cut {
            let slipped = slip.length.zip(drawn).map(|(length, drawn)| (length - drawn).max(0.0));
            drawn = slip.length.zip(drawn).map(|(length, drawn)| (drawn - length).max(0.0));
            slipped
        } else {
            drawn = slip.length.zip(drawn).map(|(length, drawn)| drawn + length);
            slip.length
        };
        on_reel = on_reel.zip(slipped).map(|(left, slipped)| left - slipped);
        let length = slip.length.filter(|_| slip.cut);
        // The hole is as deep as the job before has left it.
        let hole = slip.before.checked_sub(1).map_or(0.0, |before| programme.steps[before].hole);
        let laps = length.zip(lap).map(|(length, lap)| length / lap);
        all.push(MovedOn { job: *job, hole, since: slip.since, slipped, cut: slip.cut, length, laps, on_reel });
    }
    all
}

fn jobs(programme: &Programme, rule: Option<CutRule>, slips: &[Slip]) -> Vec<WorkedJob> {
    let (mut total, mut since) = (0.0, rule.map(|rule| rule.today));
    let mut jobs = Vec::new();
    for (index, step) in programme.steps.iter().enumerate() {
        let before: Vec<usize> = (0..slips.len()).filter(|at| slips[*at].before == index).collect();
        if before.iter().any(|at| slips[*at].cut) {
            since = Some(0.0);
        }
        total += step.line_work;
        since = since.map(|since| since + step.line_work);
        if step.line_work > 0.0 || !before.is_empty() {
            jobs.push(WorkedJob { step: *step, before, since, total });
        }
    }
    jobs
}

fn cautions(fit: &Fit, programme: &Programme, record: &LineRecord) -> Vec<Remark> {
    let mut cautions = Vec::new();
    let line = &fit.rig.line;
    let entries = [(line.cut_work, "rig.line.cut_work"), (line.work_since_cut, "rig.line.work_since_cut")];
    for (_, entry) in entries.iter().filter(|(value, _)| value.is_none()) {
        cautions.push(Remark::new(format!("where to slip and cut is unknown: `{entry}` is not given")));
    }
    if record.goal.is_none() {
        cautions.push(Remark::new(
            "no goal of line work is known for a line of this diameter: lengths are those of the rig's own rule",
        ));
    }
    if line.on_reel.is_none() {
        cautions.push(Remark::new("how much line is left is unknown: `rig.line.on_reel` is not given"));
    }
    let Some(rule) = record.rule else { return cautions };
    if rule.today >= rule.cut_work {
        cautions.push(
            Remark::new("the line has passed the rig's rule today: slip and cut before the next job")
                .with("since the last cut", rule.today, Kind::LineWork)
                .with("rule", rule.cut_work, Kind::LineWork),
        );
    }
    let stretches = cuts::stretches(fit, programme);
    if let Some(most) = stretches.iter().max_by(|a, b| a.work.total_cmp(&b.work)).filter(|most| most.work > rule.cut_work) {
        let deepest = programme.steps[most.first..most.end].iter().map(|step| step.from.max(step.to)).fold(0.0, f64::max);
        cautions.push(
            Remark::new("between two chances to cut the line does more work than the rig's rule allows")
                .with("down to", deepest, Kind::Depth)
                .with("line work", most.work, Kind::LineWork)
                .with("rule", rule.cut_work, Kind::LineWork),
        );
    }
    if let Some(short) = record.moved.iter().position(|moved| moved.on_reel.is_some_and(|left| left < 0.0)) {
        let first = &record.moved[short];
        cautions.push(
            Remark::new("the line on the storage reel does not last: a new reel is wanted before")
                .with("hole at", first.hole, Kind::Depth)
                .with("lacking at the end", -record.left(fit).unwrap_or(0.0), Kind::Depth),
        );
    }
    cautions
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Answer, Scene, question, sweep};

    fn told(fit: &Fit, name: &str) -> f64 {
        let basis = Basis::new(fit);
        let scene = Scene::new(&basis, sweep::section_end(fit, 0));
        match (question("hoisting/slip-and-cut").unwrap().ask)(&scene, &mut Off) {
            Answer::Told(figures) => figures.iter().find(|figure| figure.name == name).unwrap().value,
            other => panic!("{other:?}"),
        }
    }

    /// Every joule of the programme stands in one row, and the row after a cut begins at nought.
    #[test]
    fn law_the_record_holds_the_work_of_the_programme() {
        for name in ["ostrick", "tolvane", "quellmere"] {
            let fit = crate::example(name);
            let record = line_record(&fit);
            let sum: f64 = record.jobs.iter().map(|job| job.step.line_work).sum();
            assert!((record.total() / sum - 1.0).abs() < 1e-12, "{name}");
            assert!((told(&fit, "line work of the programme") / sum - 1.0).abs() < 1e-12, "{name}");
            assert!((told(&fit, "on the line at its end") - record.since().unwrap()).abs() <= 1e-9 * sum, "{name}");
            assert!((told(&fit, "cuts") - record.cuts() as f64).abs() < 1e-9, "{name}");
            assert!(record.cuts() > 0, "{name}: the programme wears the line");
            let mut since = record.rule.unwrap().today;
            for job in &record.jobs {
                if job.before.iter().any(|at| record.moved[*at].cut) {
                    since = 0.0;
                }
                since += job.step.line_work;
                assert!((job.since.unwrap() - since).abs() <= 1e-9 * sum, "{name}");
            }
            let stood: usize = record.jobs.iter().map(|job| job.before.len()).sum();
            assert_eq!(stood, record.moved.len(), "{name}: each stands before one job");
        }
    }

    /// What is cut off has come off the reel: at once without slips, in parts with them.
    #[test]
    fn law_the_reel_gives_what_is_cut() {
        let mut fit = crate::example("ostrick");
        let record = line_record(&fit);
        let reel = fit.rig.line.on_reel.unwrap();
        assert!((reel - record.left(&fit).unwrap() - record.cut.unwrap()).abs() < 1e-9);
        fit.rig.line.slips = 2;
        let record = line_record(&fit);
        assert!(record.cuts() > 1 && record.moved.len() > record.cuts());
        // Nothing is cut that has not been drawn, and a cut that draws makes the two even.
        let made = (record.rule.unwrap().today / (record.rule.unwrap().cut_work / 3.0)).floor();
        assert!(made.abs() < 1e-9, "the line of the example has not been slipped since its cut");
        let (mut drawn, mut cut) = (0.0, 0.0);
        for moved in &record.moved {
            drawn += moved.slipped.unwrap();
            cut += moved.length.unwrap_or(0.0);
            assert!(drawn >= cut - 1e-9);
            assert!(!moved.cut || moved.slipped == Some(0.0) || (drawn - cut).abs() < 1e-9, "{moved:?}");
            assert!((reel - drawn - moved.on_reel.unwrap()).abs() < 1e-9);
        }
    }

    /// The cut in laps always ends on a half, as the crossover must come to lie elsewhere.
    #[test]
    fn law_cuts_end_on_half_laps() {
        let record = line_record(&crate::example("ostrick"));
        for moved in record.moved.iter().filter(|moved| moved.cut) {
            assert!((moved.laps.unwrap().fract() - 0.5).abs() < 1e-9, "{moved:?}");
        }
    }

    #[test]
    fn rejects_a_plan_without_the_rule() {
        let mut fit = crate::example("ostrick");
        fit.rig.line.cut_work = None;
        fit.rig.line.on_reel = None;
        let record = line_record(&fit);
        assert!(record.moved.is_empty() && record.rule.is_none() && record.cut.is_none() && record.since().is_none());
        assert!(record.total() > 0.0, "the work is known all the same");
        let said: Vec<&str> = record.cautions.iter().map(|caution| caution.text.as_str()).collect();
        assert!(said.iter().any(|text| text.contains("rig.line.cut_work")), "{said:?}");
        assert!(said.iter().any(|text| text.contains("rig.line.on_reel")), "{said:?}");
    }

    #[test]
    fn law_what_is_overdue_or_lacking_is_said() {
        let mut fit = crate::example("ostrick");
        let plain = line_record(&fit).cautions.len();
        let rule = fit.rig.line.cut_work.unwrap();
        fit.rig.line.work_since_cut = Some(1.5 * rule);
        fit.rig.line.on_reel = Some(1.0);
        let record = line_record(&fit);
        assert_eq!(record.jobs[0].before, [0], "it is cut before the first job");
        assert!(record.cautions.len() >= plain + 2, "{:?}", record.cautions);
        assert!(record.left(&fit).unwrap() < 0.0);
    }
}
