//! What the whole programme asks of line and time: when to slip and cut, whether the line lasts, how long trips and the well
//! take.

use super::load::rated;
use crate::programme::cuts::{self, LinePlan, Slip};
use crate::programme::time::{self, Trip, TripTold};
use crate::programme::{self, Job, Programme, Step};
use crate::{Answer, Figure, Judged, Place, Scene};
use rigwright_physics::{Kind, Recorder};
use rigwright_well::{Fit, Operation};

fn figure(name: &'static str, value: f64, kind: Kind) -> Figure {
    Figure { name, value, kind }
}

/// The rig's rule: line work after which it cuts, and the work on the line today. [J, J]
fn rule(fit: &Fit) -> Result<(f64, f64), Answer> {
    let line = &fit.rig.line;
    match (line.cut_work, line.work_since_cut) {
        (Some(cut_work), Some(today)) => Ok((cut_work, today)),
        (cut_work, today) => {
            let entries = [(cut_work, "rig.line.cut_work"), (today, "rig.line.work_since_cut")];
            Err(Answer::Missing(entries.into_iter().filter(|(value, _)| value.is_none()).map(|(_, entry)| entry).collect()))
        }
    }
}

/// The jobs with their line work, numbered by kind.
fn show_jobs<R: Recorder>(programme: &Programme, plan: Option<&LinePlan>, rec: &mut R) {
    if !R::ON {
        return;
    }
    let numbered: Vec<String> = Job::ALL.iter().enumerate().map(|(index, job)| format!("{} {}", index + 1, job.name())).collect();
    rec.note(|| format!("jobs by number: {}", numbered.join(", ")));
    let number = |job: Job| Job::ALL.iter().position(|one| *one == job).map_or(0.0, |index| index as f64 + 1.0);
    const COLUMNS: &[(&str, Kind)] = &[
        ("section", Kind::Count),
        ("job", Kind::Count),
        ("from", Kind::Depth),
        ("to", Kind::Depth),
        ("takes", Kind::Time),
        ("ends", Kind::Time),
        ("line work", Kind::LineWork),
    ];
    rec.table("the jobs of the well, in order; depths are those of the bit or shoe", COLUMNS, || {
        let row = |step: &Step| {
            let section = step.section as f64 + 1.0;
            vec![section, number(step.job), step.from, step.to, step.time, step.end(), step.line_work]
        };
        programme.steps.iter().map(row).collect()
    });
    let Some(plan) = plan else { return };
    const SLIPS: &[(&str, Kind)] = &[
        ("section", Kind::Count),
        ("hole", Kind::Depth),
        ("bit", Kind::Depth),
        ("time", Kind::Time),
        ("work since the cut", Kind::LineWork),
        ("length", Kind::Depth),
    ];
    let row = |slip: &Slip| {
        let step = programme.steps.get(slip.before)?;
        // The hole is as deep as the job before has left it.
        let hole = slip.before.checked_sub(1).map_or(0.0, |before| programme.steps[before].hole);
        Some(vec![step.section as f64 + 1.0, hole, step.from, step.start, slip.since, slip.length.unwrap_or(0.0)])
    };
    rec.table("cuts", SLIPS, || plan.cuts().filter_map(row).collect());
    if plan.slips.iter().any(|slip| !slip.cut) {
        rec.table("slips without a cut", SLIPS, || plan.slips.iter().filter(|slip| !slip.cut).filter_map(row).collect());
    }
}

/// When the line is slipped and cut over the programme.
pub(super) fn slip_and_cut<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let (cut_work, today) = match rule(fit) {
        Ok(rule) => rule,
        Err(missing) => return missing,
    };
    let programme = scene.basis.programme();
    let plan = cuts::plan(fit, programme, (cut_work, today));
    rec.given("line work after which the rig cuts", cut_work, Kind::LineWork);
    rec.given("line work since the last cut, today", today, Kind::LineWork);
    if R::ON {
        let most = programme.steps.iter().max_by(|a, b| a.line_work.total_cmp(&b.line_work));
        if let Some(step) = most {
            rec.heading("the job with the most line work in full");
            programme::show(scene.basis, step, rec);
            programme::line::work(scene.basis, step, rec);
        }
        if let Some(cut) = plan.cuts().next() {
            rec.heading("length of the first cut");
            if cuts::length(fit, cut.since, rec).is_none() {
                rec.note(|| "No goal is known for a line of this diameter: lengths are those of the rig's own rule.".to_owned());
            }
        }
    }
    show_jobs(programme, Some(&plan), rec);
    let all: f64 = programme.steps.iter().map(|step| step.line_work).sum();
    let mut figures = vec![figure("cuts", plan.cuts().count() as f64, Kind::Count)];
    if let Some((cut, step)) = plan.cuts().next().and_then(|cut| Some((cut, programme.steps.get(cut.before)?))) {
        figures.push(figure("first cut after", step.start, Kind::Time));
        figures.push(figure("with the bit at", step.from, Kind::Depth));
        figures.push(figure("line work until then", cut.since - today, Kind::LineWork));
        figures.extend(cut.length.map(|length| figure("length of the first cut", length, Kind::Depth)));
    }
    figures.extend(plan.length().map(|length| figure("line cut in all", length, Kind::Depth)));
    figures.push(figure("line work of the programme", all, Kind::LineWork));
    figures.push(figure("on the line at its end", plan.since, Kind::LineWork));
    Answer::Told(figures)
}

/// The longest work between two chances to cut.
pub(super) fn line_between_cuts<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let Some(capacity) = fit.rig.line.cut_work else { return Answer::Missing(vec!["rig.line.cut_work"]) };
    let (programme, section) = (scene.basis.programme(), scene.situation.section);
    let stretches = cuts::stretches(fit, programme);
    let here = stretches.iter().filter(|stretch| programme.steps[stretch.first].section == section);
    let Some(most) = here.max_by(|a, b| a.work.total_cmp(&b.work)) else {
        return Answer::DoesNotArise("the section has no jobs");
    };
    let steps = &programme.steps[most.first..most.end];
    if R::ON {
        for step in steps.iter().filter(|step| step.line_work > 0.0) {
            rec.heading(step.job.name());
            programme::show(scene.basis, step, rec);
            programme::line::work(scene.basis, step, rec);
        }
    }
    rec.given("line work from one chance to cut to the next, added up", most.work, Kind::LineWork);
    rec.given("line work after which the rig cuts", capacity, Kind::LineWork);
    let limit = rated(capacity, fit.well.reserves.machinery, "rule for cutting the line", "the rig's file");
    let deepest = steps.iter().map(|step| step.from.max(step.to)).fold(0.0, f64::max);
    Answer::Judged(Judged { demand: most.work, limit, place: Place::Depth(deepest), zero: 0.0 })
}

/// The line that the programme cuts off against what is left of it.
pub(super) fn line_on_reel<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let rule = match rule(fit) {
        Ok(rule) => rule,
        Err(missing) => return missing,
    };
    let Some(capacity) = fit.rig.line.on_reel else { return Answer::Missing(vec!["rig.line.on_reel"]) };
    let programme = scene.basis.programme();
    let plan = cuts::plan(fit, programme, rule);
    let Some(demand) = plan.length() else {
        return Answer::DoesNotArise("no goal of line work is known for a line of this diameter");
    };
    if let Some(cut) = plan.cuts().next() {
        rec.heading("length of the first cut");
        cuts::length(fit, cut.since, rec);
    }
    show_jobs(programme, Some(&plan), rec);
    rec.given("line cut in all", demand, Kind::Depth);
    rec.given("line left on the storage reel", capacity, Kind::Depth);
    let limit = rated(capacity, fit.well.reserves.machinery, "line on the storage reel", "the rig's file");
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

/// How long the trips of a section take.
pub(super) fn trip_time<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let (section, this) = (scene.situation.section, scene.section());
    let hole = this.bottom;
    let mut figures = Vec::new();
    let mut told = |heading, names: [&'static str; 3], operation, bottom: f64, rec: &mut R| {
        rec.heading(heading);
        let trip = Trip { operation, rigged_for: operation, between: (0.0, bottom), hole };
        let TripTold { time, slowed, unsafe_stands } = time::trip(scene.basis, section, &trip, rec);
        figures.push(figure(names[0], time.total(), Kind::Time));
        if slowed > 0 {
            rec.note(|| {
                "Swab or surge slows down some of these below the speed wanted: circulating/safe-speed says by how much.".into()
            });
            figures.push(figure(names[1], slowed as f64, Kind::Count));
        }
        if unsafe_stands > 0 {
            rec.note(|| "At some of these no speed is safe in still mud: they are counted at the speed wanted.".into());
            figures.push(figure(names[2], unsafe_stands as f64, Kind::Count));
        }
    };
    let out = ["out from the end of the section", "stands slowed down by swab", "stands at which no pull is safe"];
    told("pulling out", out, Operation::PullingOut, this.bottom, rec);
    let back = ["in to its end", "stands slowed down by surge", "stands at which no run is safe"];
    told("running in", back, Operation::RunningIn, this.bottom, rec);
    if let Some(casing) = &*this.casing {
        let names = ["running the casing, joint by joint", "joints slowed down by surge", "joints at which no run is safe"];
        told("running the casing", names, Operation::RunningCasing, casing.shoe - casing.top, rec);
    }
    Answer::Told(figures)
}

/// How long the well takes.
pub(super) fn days<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let programme = scene.basis.programme();
    let mut figures = vec![figure("the whole programme", programme.duration(), Kind::Time)];
    for job in Job::ALL {
        let steps: Vec<&Step> = programme.steps.iter().filter(|step| step.job == job).collect();
        let Some(longest) = steps.iter().max_by(|a, b| a.time.total_cmp(&b.time)) else { continue };
        let time: f64 = steps.iter().map(|step| step.time).sum();
        if R::ON {
            rec.heading(job.name());
            rec.note(|| format!("{} of these in the programme; the longest in full", steps.len()));
            programme::show(scene.basis, longest, rec);
            time::of(scene.basis, longest, rec);
            rec.given("all of this kind", time, Kind::Time);
        }
        figures.push(figure(job.name(), time, Kind::Time));
    }
    rec.heading("the programme, job by job");
    show_jobs(programme, None, rec);
    Answer::Told(figures)
}
