//! The circulating system of a section as a grid of settings, and the rooms of its limits there.
//!
//! A setting is asked only in the situations that have governed some setting before (the probes): a room over few situations is
//! never smaller than over all, so a setting that fails there fails. One that passes is then asked in every situation; where
//! another one governs, it becomes a probe too.

use super::ground::{asking, the};
use crate::{Answer, Basis, Judged, Question, Scene, Scope, sweep};
use rigwright_physics::Off;
use rigwright_well::{Fit, Operation, Situation};
use rigwright_wellfile::{Knob, Step};
use std::collections::BTreeMap;

/// Steps that the mud weight and the flow are turned by, each way.
const WEIGHT_STEPS: i32 = 60;
const FLOW_STEPS: i32 = 100;
/// Questions that one search may ask: a bound on its time, ten times what the demo wells take.
const MOST_ASKED: usize = 400_000;

/// Which settings a limit hangs on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Stage {
    /// Mud weight alone: pumps off.
    Weight,
    /// Mud weight and flow: the annulus.
    Flow,
    /// Flow, liner and number of pumps: pump speed.
    Pumps,
    /// All: pressure, pump power, sets.
    Pressure,
}

/// A limit: a question in one operation.
#[derive(Clone, Copy)]
pub(super) struct Limit {
    pub(super) question: &'static Question,
    pub(super) operation: Operation,
    pub(super) stage: Stage,
}

const LIMITS: &[(&str, &[Operation], Stage)] = &[
    ("circulating/overbalance", &[Operation::Connection, Operation::PullingOut], Stage::Weight),
    ("circulating/fracture", &[Operation::Connection, Operation::RunningIn, Operation::RunningCasing], Stage::Weight),
    ("circulating/break-circulation", &[Operation::Connection], Stage::Weight),
    ("circulating/overbalance", &[Operation::Circulating], Stage::Flow),
    ("circulating/fracture", &[Operation::Drilling], Stage::Flow),
    (CLEANING, &[Operation::Drilling], Stage::Flow),
    ("circulating/cuttings-load", &[Operation::Drilling], Stage::Flow),
    ("circulating/washout", &[Operation::Drilling], Stage::Flow),
    ("circulating/return-line", &[Operation::Drilling], Stage::Flow),
    ("rotating/tool-flow", &[Operation::Drilling], Stage::Flow),
    ("rotating/tool-least-flow", &[Operation::Drilling], Stage::Flow),
    ("circulating/pump-speed", &[Operation::Drilling], Stage::Pumps),
    ("circulating/standpipe-break", &[Operation::Drilling], Stage::Pressure),
    ("circulating/standpipe-pressure", &[Operation::Drilling, Operation::Circulating], Stage::Pressure),
    ("circulating/pump-power", &[Operation::Drilling, Operation::Circulating], Stage::Pressure),
    ("power/sets-on-line", &[Operation::Drilling, Operation::Circulating], Stage::Pressure),
    ("power/one-set-lost", &[Operation::Drilling, Operation::Circulating], Stage::Pressure),
    ("power/peak", &[Operation::Connection], Stage::Pressure),
    ("power/peak-one-set-lost", &[Operation::Connection], Stage::Pressure),
];

/// The question whose demand does not hang on the flow that it is held against.
const CLEANING: &str = "circulating/cleaning";

/// A setting by its place on each axis: mud weight, flow, nozzle area, liner, pumps.
pub(super) type Place = [usize; 5];
pub(super) const WEIGHT: usize = 0;
pub(super) const FLOW: usize = 1;
pub(super) const AREA: usize = 2;
pub(super) const LINER: usize = 3;
pub(super) const PUMPS: usize = 4;

/// The values of one knob, ascending.
pub(super) struct Axis {
    pub(super) knob: &'static Knob,
    pub(super) values: Vec<f64>,
    /// Where it stands.
    pub(super) here: usize,
}

impl Axis {
    fn new(fit: &Fit, section: usize, name: &str, most: i32) -> Option<Axis> {
        let knob = the(name)?;
        let from = (knob.get)(fit, section)?;
        let allowed = (knob.allowed)(fit, section);
        let mut values: Vec<f64> = match knob.step {
            Step::By(step) => (-most..=most).map(|count| from + step * f64::from(count)).collect(),
            Step::Among(choices) => choices(fit, section),
        };
        values.retain(|value| allowed.contains(*value) && (*value - from).abs() > 1e-9 * from.abs());
        values.push(from);
        values.sort_by(f64::total_cmp);
        let here = values.iter().position(|value| value.total_cmp(&from).is_eq())?;
        Some(Axis { knob, values, here })
    }

    /// How far a place is from where the knob stands.
    pub(super) fn steps(&self, place: usize) -> usize {
        place.abs_diff(self.here)
    }

    /// Places, nearest first; of two as near the smaller value.
    pub(super) fn nearest_first(&self) -> Vec<usize> {
        let mut places: Vec<usize> = (0..self.values.len()).collect();
        places.sort_by_key(|place| (self.steps(*place), *place));
        places
    }
}

/// A situation in which limits are asked.
#[derive(Clone)]
struct Probe {
    operation: Operation,
    hole_depth: f64,
    bit_depth: f64,
    limits: Vec<usize>,
}

/// The governing answer of one limit at one setting.
#[derive(Clone, Copy)]
pub(super) struct Governing {
    /// Infinite where nothing was judged. [reserves]
    pub(super) room: f64,
    pub(super) judged: Option<Judged>,
    situation: Option<Situation>,
}

/// The grid of one section.
pub(super) struct Grid {
    section: usize,
    pub(super) axes: [Axis; 5],
    pub(super) limits: Vec<Limit>,
    probes: Vec<Probe>,
    fit: Fit,
    known: BTreeMap<(Stage, Place), Vec<f64>>,
    asked: usize,
    /// Entries that nobody gave, so that limits are not judged.
    pub(super) missing: Vec<&'static str>,
}

impl Grid {
    /// The grid around what stands; `None` for a section whose bit has no known nozzles.
    pub(super) fn new(fit: &Fit, section: usize) -> Option<Grid> {
        let axis = |name, most| Axis::new(fit, section, name, most);
        let axes = [
            axis("mud weight", WEIGHT_STEPS)?,
            axis("flow rate", FLOW_STEPS)?,
            axis("nozzle area", 0)?,
            axis("liner", 0)?,
            axis("pumps on", 0)?,
        ];
        let mut limits = Vec::new();
        for (slug, operations, stage) in LIMITS {
            for question in asking(&[slug]) {
                limits.extend(operations.iter().map(|operation| Limit { question, operation: *operation, stage: *stage }));
            }
        }
        let (probes, known, missing) = (Vec::new(), BTreeMap::new(), Vec::new());
        let mut grid = Grid { section, axes, limits, probes, fit: fit.clone(), known, asked: 0, missing };
        grid.check(grid.here());
        Some(grid)
    }

    /// Where the knobs stand.
    pub(super) fn here(&self) -> Place {
        [0, 1, 2, 3, 4].map(|axis| self.axes[axis].here)
    }

    /// Whether the search has asked as much as it may.
    pub(super) fn worn_out(&self) -> bool {
        self.asked > MOST_ASKED
    }

    /// Index of the cleaning limit.
    pub(super) fn cleaning(&self) -> Option<usize> {
        self.limits.iter().position(|limit| limit.question.slug == CLEANING)
    }

    /// Rooms of all limits that a stage knows of, on the probes; infinite for the others. [reserves]
    pub(super) fn rooms(&mut self, stage: Stage, place: Place) -> &[f64] {
        let key = (stage, self.plain(stage, place));
        if !self.known.contains_key(&key) {
            let rooms = self.ask_probes(stage, key.1);
            self.known.insert(key, rooms);
        }
        self.known.get(&key).map_or(&[], Vec::as_slice)
    }

    /// A place with what a stage does not hang on put where it stands.
    fn plain(&self, stage: Stage, place: Place) -> Place {
        let free: &[usize] = match stage {
            Stage::Weight => &[WEIGHT],
            Stage::Flow => &[WEIGHT, FLOW],
            Stage::Pumps => &[FLOW, LINER, PUMPS],
            Stage::Pressure => &[WEIGHT, FLOW, AREA, LINER, PUMPS],
        };
        let mut plain = self.here();
        for axis in free {
            plain[*axis] = place[*axis];
        }
        plain
    }

    /// Puts the knobs of the grid's own fit to a place.
    fn put(&mut self, place: Place) {
        for (axis, at) in self.axes.iter().zip(place) {
            (axis.knob.set)(&mut self.fit, self.section, axis.values[at]);
        }
    }

    fn ask_probes(&mut self, stage: Stage, place: Place) -> Vec<f64> {
        self.put(place);
        let mut rooms = vec![f64::INFINITY; self.limits.len()];
        let basis = Basis::new(&self.fit);
        let mut asked = 0;
        for probe in &self.probes {
            if probe.limits.iter().all(|limit| self.limits[*limit].stage != stage) {
                continue;
            }
            let Probe { operation, hole_depth, bit_depth, .. } = *probe;
            let scene = Scene::new(&basis, sweep::situation(&self.fit, self.section, operation, hole_depth, bit_depth));
            for limit in probe.limits.iter().filter(|limit| self.limits[**limit].stage == stage) {
                let answer = (self.limits[*limit].question.ask)(&scene, &mut Off);
                rooms[*limit] = rooms[*limit].min(answer.room().unwrap_or(f64::INFINITY));
                asked += 1;
            }
        }
        self.asked += asked;
        rooms
    }

    /// Asks a place in every situation and makes probes of those that govern.
    pub(super) fn check(&mut self, place: Place) -> Vec<Governing> {
        self.put(place);
        let basis = Basis::new(&self.fit);
        let none = Governing { room: f64::INFINITY, judged: None, situation: None };
        let mut governing = vec![none; self.limits.len()];
        let mut asked = 0;
        let end = sweep::section_end(&self.fit, self.section);
        let swept = sweep::in_section(&self.fit, self.section);
        for situation in swept.into_iter().chain([end]) {
            let is_end = situation == end;
            let mut scene = None;
            for (limit, kept) in self.limits.iter().zip(&mut governing) {
                let once = limit.question.scope != Scope::Situation;
                if limit.operation != situation.operation || (once && !is_end) {
                    continue;
                }
                let scene = scene.get_or_insert_with(|| Scene::new(&basis, situation));
                asked += 1;
                match (limit.question.ask)(scene, &mut Off) {
                    Answer::Judged(judged) if judged.room() < kept.room => {
                        *kept = Governing { room: judged.room(), judged: Some(judged), situation: Some(situation) };
                    }
                    Answer::Missing(entries) => {
                        let new: Vec<_> = entries.into_iter().filter(|entry| !self.missing.contains(entry)).collect();
                        self.missing.extend(new);
                    }
                    _ => {}
                }
            }
        }
        self.asked += asked;
        for (index, kept) in governing.iter().enumerate() {
            if let Some(situation) = kept.situation {
                self.probe(index, &situation);
            }
        }
        governing
    }

    /// Makes a probe of a situation for a limit.
    fn probe(&mut self, limit: usize, situation: &Situation) {
        let Situation { operation, hole_depth, bit_depth, .. } = *situation;
        let same = |probe: &&mut Probe| {
            probe.operation == operation
                && (probe.hole_depth - hole_depth).abs() < 1e-9
                && (probe.bit_depth - bit_depth).abs() < 1e-9
        };
        match self.probes.iter_mut().find(same) {
            Some(probe) if probe.limits.contains(&limit) => return,
            Some(probe) => probe.limits.push(limit),
            None => self.probes.push(Probe { operation, hole_depth, bit_depth, limits: vec![limit] }),
        }
        // What was asked on fewer probes no longer counts.
        let stage = self.limits[limit].stage;
        self.known.retain(|(known, _), _| *known != stage);
    }
}
