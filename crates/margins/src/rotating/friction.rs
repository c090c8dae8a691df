//! The friction factor that measured hook loads imply, and whether the file's own lies within their spread.

use crate::fields::drag::{Moved, Moving};
use crate::geometry;
use crate::hoisting::tackle;
use crate::{Answer, Judged, Limit, Place, Scene, sweep, worst};
use rigwright_physics::hoisting::{DragNode, HookLoadHoisting, HookLoadLowering, StringMotion, TravellingWeight};
use rigwright_physics::{Kind, Off, Recorder, Root, numerics};
use rigwright_well::{Friction, HookLoadReading, Motion, Operation};

/// Friction factors between which one is looked for. [-]
const FACTORS: (f64, f64) = (0.0, 1.5);
/// No set of readings is told apart more closely than this (common practice: what a weight indicator can be read to). [-]
const LEAST_SPREAD: f64 = 0.01;

/// One reading and what it implies.
struct Fitted<'a> {
    reading: &'a HookLoadReading,
    /// Load on the hook, block and top drive included. [N]
    load: f64,
    /// Friction factor; `None` where none explains the load. [-]
    factor: Option<f64>,
    /// Computed less measured load at that factor. [N]
    residual: f64,
}

/// Readings of one kind of hole with their mean and spread.
struct Group<'a> {
    name: &'static str,
    given: f64,
    fitted: Vec<Fitted<'a>>,
}

impl Group<'_> {
    fn factors(&self) -> impl Iterator<Item = f64> + Clone {
        self.fitted.iter().filter_map(|fitted| fitted.factor)
    }

    fn mean(&self) -> Option<f64> {
        let count = self.factors().count();
        (count > 0).then(|| self.factors().sum::<f64>() / count as f64)
    }

    /// Two standard deviations of the readings; `None` for fewer than two.
    fn spread(&self) -> Option<f64> {
        let (count, mean) = (self.factors().count(), self.mean()?);
        let square: f64 = self.factors().map(|factor| (factor - mean) * (factor - mean)).sum();
        (count > 1).then(|| (2.0 * (square / (count - 1) as f64).sqrt()).max(LEAST_SPREAD))
    }
}

/// The true load behind a reading. [N]
fn true_load<R: Recorder>(scene: &Scene, reading: &HookLoadReading, rec: &mut R) -> f64 {
    if reading.corrected {
        return reading.load;
    }
    let tackle = tackle(scene);
    let (lines, sheave_factor) = (tackle.lines, tackle.sheave_factor);
    // The indicator takes every line to pull as the dead line does.
    let dead_line = reading.load / lines;
    match reading.motion {
        Motion::Down => rec.take(HookLoadLowering { dead_line, lines, sheave_factor }),
        Motion::Up | Motion::Still => rec.take(HookLoadHoisting { dead_line, lines, sheave_factor }),
    }
}

/// Solves one reading: friction of the kind of hole that its bit stands in, the other as it is known.
fn fit_one<'a, R: Recorder>(
    scene: &Scene,
    reading: &'a HookLoadReading,
    friction: impl Fn(f64) -> Friction,
    rec: &mut R,
) -> Fitted<'a> {
    let fit = scene.fit();
    let load = true_load(scene, reading, rec);
    let travelling = rec.take(TravellingWeight { block_weight: fit.rig.block.weight, drive_weight: fit.rig.drive.weight });
    let (operation, way) = match reading.motion {
        Motion::Down => (Operation::RunningIn, -1.0),
        Motion::Up | Motion::Still => (Operation::PullingOut, 1.0),
    };
    let there = sweep::situation(fit, scene.situation.section, operation, scene.section().bottom, reading.depth);
    let there = Scene::new(scene.basis, there);
    let moving = Moving::new(&there);
    let motion = StringMotion { axial_speed: way * there.situation.pipe_speed, rotary_speed: 0.0 };
    let moved = Moved { motion, weight_on_bit: 0.0, bit_torque: 0.0 };
    let grid = |factor: f64| moving.grid(friction(factor));
    let apart = |node: DragNode| node.effective_tension + travelling - load;
    let at = |factor: f64| apart(moving.surface(&grid(factor), &moved, &mut Off));
    let [least, most] = moving.surface_in_both([&grid(FACTORS.0), &grid(FACTORS.1)], &moved).map(apart);
    // A load grows nearly straight with friction.
    let factor = numerics::root_of_straight(at, [(FACTORS.0, least), (FACTORS.1, most)]);
    // Only the working tells it.
    let residual = factor.filter(|_| R::ON).map_or(0.0, at);
    Fitted { reading, load, factor, residual }
}

const COLUMNS: &[(&str, Kind)] =
    &[("bit depth", Kind::Depth), ("hook load", Kind::Force), ("friction that explains it", Kind::Ratio)];

fn show<R: Recorder>(scene: &Scene, group: &Group, rec: &mut R) {
    if !R::ON || group.fitted.is_empty() {
        return;
    }
    rec.heading(group.name);
    for fitted in &group.fitted {
        let way = if fitted.reading.motion == Motion::Down { "read running in" } else { "read pulling out" };
        rec.stretch(|| way.to_owned(), 0.0, fitted.reading.depth);
        rec.given("as read", fitted.reading.load, Kind::Force);
        true_load(scene, fitted.reading, rec);
        match fitted.factor {
            Some(value) => rec.root(Root {
                equation: "hook load of the march at this friction less the hook load read = 0",
                sign: "μ",
                meaning: "friction factor",
                kind: Kind::Ratio,
                value,
                residual: fitted.residual,
                residual_kind: Kind::Force,
            }),
            None => {
                rec.note(|| "No friction explains this load: look at the block's weight, the string and the indicator.".into());
            }
        }
    }
    rec.table("readings that a friction explains", COLUMNS, || {
        let row = |fitted: &Fitted| Some(vec![fitted.reading.depth, fitted.load, fitted.factor?]);
        group.fitted.iter().filter_map(row).collect()
    });
    if let Some(mean) = group.mean() {
        rec.given("mean of these", mean, Kind::Ratio);
    }
    if let Some(spread) = group.spread() {
        rec.given("two standard deviations of the readings, no less than can be read", spread, Kind::Ratio);
    }
    rec.given("friction in the well file", group.given, Kind::Ratio);
}

/// Whether the file's friction is what the hook loads say.
pub(super) fn friction_fit<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let (fit, section) = (scene.fit(), scene.section());
    if section.hook_loads.is_empty() {
        return Answer::DoesNotArise("no hook load was read in the section");
    }
    let shoe = geometry::open_from(fit, scene.situation.section);
    let given = *fit.well.friction;
    let (inside, outside): (Vec<_>, Vec<_>) = section.hook_loads.iter().partition(|reading| reading.depth <= shoe);
    let fitted = inside.iter().map(|reading| fit_one(scene, reading, |cased| Friction { cased, ..given }, &mut Off));
    let cased = Group { name: "with the bit inside casing", given: given.cased, fitted: fitted.collect() };
    // In open hole the casing has the friction that its own readings say, where there are any.
    let known = cased.mean().unwrap_or(given.cased);
    let fitted = outside.iter().map(|reading| fit_one(scene, reading, |open| Friction { cased: known, open }, &mut Off));
    let open = Group { name: "with the bit in open hole", given: given.open, fitted: fitted.collect() };
    show(scene, &cased, rec);
    if R::ON && !open.fitted.is_empty() {
        rec.given("friction inside casing that the readings in open hole are solved with", known, Kind::Ratio);
    }
    show(scene, &open, rec);
    let groups = [(&cased, shoe), (&open, section.bottom)];
    let judge = |(group, depth): &(&Group, f64)| {
        let (mean, capacity) = (group.mean()?, group.spread()?);
        let limit = Limit {
            capacity,
            reserve: (fit.well.reserves.strength * capacity).max(1e-6),
            name: "spread of the hook loads read",
            source: "two standard deviations of the friction that each reading implies",
        };
        Some(Judged { demand: (group.given - mean).abs(), limit, place: Place::Depth(*depth), zero: 0.0 })
    };
    match worst(groups.iter().filter_map(judge)) {
        Some(judged) => Answer::Judged(judged),
        None if groups.iter().any(|(group, _)| group.mean().is_some()) => {
            Answer::DoesNotArise("a single reading has no spread: two in the same kind of hole are needed")
        }
        None => Answer::DoesNotArise("no friction explains the hook loads read: look at block, string and indicator"),
    }
}
