//! Lines to string for each job, the fastest trips that hold, and the pull that is left.

use super::ground::{Ground, Look, as_it_is, asking, governing, look, the, verdict};
use super::{Job, LEVELS, Outcome, Step};
use crate::hoisting::tackle;
use crate::{Basis, Figure, Question, Scene, sweep};
use rigwright_physics::hoisting::BlockSpeedByPower;
use rigwright_physics::{Formula, Off};
use rigwright_units::Kind;
use rigwright_well::{Fit, Operation};
use rigwright_wellfile::{Knob, Step as KnobStep};

/// What the lines carry.
const CARRIED: &[&str] = &[
    "hoisting/hook-load",
    "hoisting/crown-load",
    "hoisting/line-strength",
    "hoisting/line-pull",
    "hoisting/drawworks-power",
    "hoisting/overpull",
    "hoisting/dead-line-anchor",
    "hoisting/worst-leg",
    "hoisting/brake-torque",
];
const TRIPPING: &[Operation] =
    &[Operation::Drilling, Operation::Connection, Operation::Circulating, Operation::PullingOut, Operation::RunningIn];
const CASING: &[Operation] = &[Operation::RunningCasing];
/// Halvings of the range of a speed: enough for any number of its steps.
const HALVINGS: usize = 16;

/// The lines for drilling and tripping: those strung where they carry everything, else the fewest that do.
pub(super) fn lines(ground: &Ground) -> (Step, Option<Fit>) {
    let all: Vec<usize> = (0..ground.fit.well.sections.len()).collect();
    strung(ground, Job::Lines, None, &all, TRIPPING)
}

/// The lines for the casing of a section; `None` where it has none.
pub(super) fn lines_for_casing(ground: &Ground, section: usize) -> Option<(Step, Option<Fit>)> {
    ground.fit.well.sections[section].casing.as_ref()?;
    Some(strung(ground, Job::LinesForCasing, Some(section), &[section], CASING))
}

fn strung(ground: &Ground, job: Job, section: Option<usize>, all: &[usize], operations: &[Operation]) -> (Step, Option<Fit>) {
    let Some(knob) = the("lines strung") else { return (Step::new(job, section, Outcome::Told), None) };
    let questions = asking(CARRIED);
    let carried = |fit: &Fit| {
        let looks = all.iter().map(|one| look(fit, *one, &questions, operations));
        looks.fold(Look::default(), Look::and)
    };
    let now = carried(&ground.fit);
    let choices = match knob.step {
        KnobStep::Among(choices) => choices(&ground.fit, 0),
        KnobStep::By(_) => Vec::new(),
    };
    let with = |lines: f64| {
        let mut fit = ground.fit.clone();
        (knob.set)(&mut fit, 0, lines);
        carried(&fit)
    };
    let looks: Vec<(f64, Look)> = choices.into_iter().map(|lines| (lines, with(lines))).collect();
    let fewest = LEVELS.iter().find_map(|level| looks.iter().find(|(_, look)| look.reached() >= *level));
    let mut figures: Vec<Figure> = Vec::new();
    if let Some((lines, _)) = fewest.filter(|(_, look)| look.room.is_some()) {
        figures.push(Figure { name: "fewest lines that carry it", value: *lines, kind: Kind::Count });
    }
    let Some((lines, better)) = fewest.filter(|(_, look)| look.room.is_some()) else {
        // Nothing carries it all: what stands, unless another choice is less short.
        let nearer = |best: &(f64, Look), next: &(f64, Look)| next.1.reached() > best.1.reached();
        let best = looks.iter().reduce(|best, next| if nearer(best, next) { next } else { best });
        if let Some((lines, _)) = best.filter(|(_, look)| look.reached() > now.reached()) {
            figures.push(Figure { name: "lines that come nearest", value: *lines, kind: Kind::Count });
        }
        let outcome = if now.room.is_some_and(|room| room < 0.0) { Outcome::Nothing } else { as_it_is(&now) };
        return (Step { figures, ..Step::new(job, section, outcome) }, None);
    };
    if now.unknown() || verdict(now.reached()) >= verdict(better.reached()) {
        return (Step { figures, ..Step::new(job, section, as_it_is(&now)) }, None);
    }
    let (fit, turns) = ground.turned(&[(knob, *lines)], 0);
    let outcome = Outcome::Turns(better.word());
    (Step { turns, figures, ..Step::new(job, section, outcome) }, Some(fit))
}

/// What a speed has to keep.
fn speed_limits(job: Job) -> Option<(&'static str, Operation, &'static [&'static str])> {
    const PULLED: &[&str] =
        &["circulating/overbalance", "power/sets-on-line", "power/one-set-lost", "power/peak", "power/peak-one-set-lost"];
    const RUN: &[&str] = &["circulating/fracture", "hoisting/brake"];
    match job {
        Job::PullingSpeed => Some(("pulling speed", Operation::PullingOut, PULLED)),
        Job::RunningSpeed => Some(("running speed", Operation::RunningIn, RUN)),
        Job::CasingSpeed => Some(("casing running speed", Operation::RunningCasing, RUN)),
        _ => None,
    }
}

/// The fastest speed that holds, on the knob's steps and no faster than the block goes; `None` where nothing is moved.
pub(super) fn speed(ground: &Ground, section: usize, job: Job) -> Option<(Step, Option<Fit>)> {
    let (name, operation, slugs) = speed_limits(job)?;
    let knob = the(name)?;
    let now = (knob.get)(&ground.fit, section)?;
    let questions = asking(slugs);
    let at = |speed: f64| asked_at(ground, section, knob, speed, (&questions, operation));
    let here = at(now);
    if here.room.is_none() || here.unknown() {
        return Some((Step::new(job, Some(section), as_it_is(&here)), None));
    }
    let lifted = if job == Job::PullingSpeed { lifted_by_power(&ground.fit, section) } else { f64::INFINITY };
    let speeds = speeds(ground, section, knob, now, lifted);
    // What is thin stays so unless all that is wanted can be had.
    for level in LEVELS.into_iter().filter(|level| *level >= 1.0 || here.reached() < 0.0) {
        let Some(fastest) = fastest(&speeds, |speed| at(speed).reached() >= level) else { continue };
        let look = at(fastest);
        let figures = vec![Figure { name: "fastest that keeps its limits", value: fastest, kind: Kind::Speed }];
        if (fastest - now).abs() < 1e-9 {
            return Some((Step { figures, ..Step::new(job, Some(section), as_it_is(&look)) }, None));
        }
        let (fit, turns) = ground.turned(&[(knob, fastest)], section);
        let outcome = Outcome::Turns(look.word());
        return Some((Step { turns, figures, ..Step::new(job, Some(section), outcome) }, Some(fit)));
    }
    let outcome = if here.reached() < 0.0 { Outcome::Nothing } else { as_it_is(&here) };
    Some((Step::new(job, Some(section), outcome), None))
}

fn asked_at(
    ground: &Ground,
    section: usize,
    knob: &Knob,
    speed: f64,
    (questions, operation): (&[&'static Question], Operation),
) -> Look {
    let mut fit = ground.fit.clone();
    (knob.set)(&mut fit, section, speed);
    look(&fit, section, questions, &[operation])
}

/// Block speed at which the power of the drawworks lifts the string from the end of the section. [m/s]
fn lifted_by_power(fit: &Fit, section: usize) -> f64 {
    let bottom = fit.well.sections[section].bottom;
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, sweep::situation(fit, section, Operation::PullingOut, bottom, bottom));
    let rig = &fit.rig;
    let hook_load = (scene.drag(&mut Off).surface_tension + rig.block.weight + rig.drive.weight).max(1.0);
    let tackle_efficiency = tackle(&scene).efficiency(&mut Off);
    let drum_efficiency = rig.drawworks.efficiency;
    BlockSpeedByPower { power: rig.drawworks.power, tackle_efficiency, drum_efficiency, hook_load }.value()
}

/// Speeds on the knob's steps around the present one, ascending.
fn speeds(ground: &Ground, section: usize, knob: &Knob, now: f64, lifted: f64) -> Vec<f64> {
    let KnobStep::By(step) = knob.step else { return vec![now] };
    let allowed = (knob.allowed)(&ground.fit, section);
    let below = ((now - allowed.low) / step).max(0.0).floor() as i32;
    let top = allowed.high.min(*ground.fit.rig.drawworks.block_speed).min(lifted);
    let above = ((top - now) / step).max(0.0).floor() as i32;
    let all = (-below..=above).map(|count| now + step * f64::from(count));
    all.filter(|speed| allowed.contains(*speed)).collect()
}

/// The fastest of ascending speeds that passes: swab, surge and power only grow with speed.
fn fastest(speeds: &[f64], mut passes: impl FnMut(f64) -> bool) -> Option<f64> {
    let (first, last) = (*speeds.first()?, *speeds.last()?);
    if passes(last) {
        return Some(last);
    }
    if !passes(first) {
        return None;
    }
    let (mut holds, mut fails) = (0, speeds.len() - 1);
    for _ in 0..HALVINGS {
        if fails - holds <= 1 {
            break;
        }
        let middle = holds.midpoint(fails);
        if passes(speeds[middle]) {
            holds = middle;
        } else {
            fails = middle;
        }
    }
    Some(speeds[holds])
}

/// The pull that is left in the rig and in the pipe where it is least.
pub(super) fn overpull(ground: &Ground, section: usize) -> Step {
    let parts = [
        ("hoisting/overpull", "left in mast, line and drawworks", "bit depth where that is least"),
        ("rotating/pipe-overpull", "left in the pipe", "bit depth where the pipe has least"),
    ];
    let mut figures = Vec::new();
    let mut missing = Vec::new();
    for (slug, left, depth) in parts {
        match governing(&ground.fit, section, slug, Operation::PullingOut) {
            Some((situation, crate::Answer::Judged(judged))) => {
                figures.push(Figure { name: left, value: judged.limit.capacity - judged.demand, kind: Kind::Force });
                figures.push(Figure { name: depth, value: situation.bit_depth, kind: Kind::Depth });
            }
            Some((_, crate::Answer::Missing(entries))) => missing.extend(entries),
            _ => {}
        }
    }
    let outcome = if missing.is_empty() { Outcome::Told } else { Outcome::Unknown(missing) };
    Step { figures, ..Step::new(Job::Overpull, Some(section), outcome) }
}
