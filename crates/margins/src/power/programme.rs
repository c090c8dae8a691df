//! Time, fuel and carbon dioxide of the whole programme, operation by operation, with the sets of today and with the number
//! that burns least.
//!
//! Trips and casing are sampled at a few depths, each standing for its share of the stands: loads change slowly and nearly
//! straight with depth.

use super::load::Load;
use super::trace::{self, PowerTrace};
use super::{fuel, site};
use crate::programme::{Job, Step, time};
use crate::{Answer, Figure, Scene, sweep};
use rigwright_physics::power::fuel::{CarbonDioxide, FuelRateOfSets, fuel_rate};
use rigwright_physics::{Formula, Kind, Off, Recorder};
use rigwright_well::Operation;

/// Depths at which a trip is sampled; drilling and its connections at half as many.
const SAMPLES: usize = 8;

/// The figure that a proposal compares.
pub(crate) const FUEL_TODAY: &str = "fuel with the sets on line today";

/// What is looked at, in the order of a section.
const WORK: [Operation; 6] = [
    Operation::RunningIn,
    Operation::Drilling,
    Operation::Connection,
    Operation::Circulating,
    Operation::PullingOut,
    Operation::RunningCasing,
];

/// One operation of one section.
#[derive(Clone, Debug, Default)]
pub(super) struct Part {
    /// Straight pieces of the load: time, power at start and end. [s, W, W]
    pieces: Vec<(f64, f64, f64)>,
    /// Largest power. [W]
    peak: f64,
}

impl Part {
    fn add(&mut self, trace: &PowerTrace, times: f64) {
        self.pieces.extend(trace.pieces().map(|(time, from, to)| (time * times, from, to)));
        self.peak = trace.peak().map_or(self.peak, |peak| self.peak.max(peak.load.total()));
    }

    fn steady(&mut self, time: f64, power: f64) {
        self.pieces.push((time, power, power));
        self.peak = self.peak.max(power);
    }

    pub(super) fn time(&self) -> f64 {
        self.pieces.iter().map(|(time, ..)| time).sum()
    }

    pub(super) fn energy(&self) -> f64 {
        self.pieces.iter().map(|(time, from, to)| 0.5 * (from + to) * time).sum()
    }

    /// Fuel with so many sets; `None` where a load lies above their curve. [m³]
    fn fuel(&self, curve: &[(f64, f64)], rating: f64, sets: u32) -> Option<f64> {
        let count = f64::from(sets);
        // Most pieces begin with the power at which the one before ends, and many keep it.
        let mut last: (f64, Option<f64>) = (f64::NAN, None);
        let mut rate = |power: f64| {
            if power.to_bits() != last.0.to_bits() {
                last = (power, fuel_rate(&mut Off, curve, power / (count * rating)));
            }
            last.1
        };
        let mut all = 0.0;
        for (time, from, to) in &self.pieces {
            let mean = 0.5 * (rate(*from)? + rate(*to)?);
            all += time * FuelRateOfSets { sets: count, fuel_rate: mean }.value();
        }
        Some(all)
    }

    /// The number of sets that burns least and still carries the peak when `lost` of them are lost, with its fuel. [m³]
    fn best(&self, curve: &[(f64, f64)], (rating, on_site): (f64, f64), number: u32, lost: u32) -> Option<(u32, f64)> {
        let enough = |sets: &u32| self.peak <= f64::from(sets.saturating_sub(lost)) * on_site;
        let choices = (1..=number).filter(enough).filter_map(|sets| Some((sets, self.fuel(curve, rating, sets)?)));
        choices.reduce(|best, next| if next.1 < best.1 { next } else { best })
    }
}

/// The depths that stand for a stretch: the middles of equal parts.
fn middles(top: f64, bottom: f64, parts: usize) -> impl Iterator<Item = f64> {
    let step = (bottom - top) / parts as f64;
    (0..parts).map(move |part| top + (part as f64 + 0.5) * step)
}

/// The work of one operation in one section, or the entry without which it is not known.
pub(super) fn part(scene: &Scene, section: usize, operation: Operation) -> Result<Part, &'static str> {
    let fit = scene.fit();
    let this = &fit.well.sections[section];
    let stand = fit.rig.mast.stand;
    let mut part = Part::default();
    for step in scene.basis.programme().section(section) {
        let Step { job, hole, .. } = *step;
        let (top, bottom) = (step.from.min(step.to), step.from.max(step.to));
        let at = |operation, hole, bit| Scene::new(scene.basis, sweep::situation(fit, section, operation, hole, bit));
        let mut moves = |(top, bottom): (f64, f64), length: f64, samples: usize, on_bottom: bool| -> Result<(), &'static str> {
            let times = (bottom - top) / length / samples as f64;
            if times <= 0.0 {
                return Ok(());
            }
            for depth in middles(top, bottom, samples) {
                let scene = at(operation, if on_bottom { depth } else { hole }, depth);
                if let Some(trace) = trace::cycle(&scene, &mut Off) {
                    part.add(&trace?, times);
                }
            }
            Ok(())
        };
        match (job, operation) {
            (Job::RunIn, Operation::RunningIn) | (Job::PullOut, Operation::PullingOut) => {
                moves((top, bottom), stand, SAMPLES, false)?;
            }
            (Job::Drill | Job::Core, Operation::Connection) => moves((top, bottom), stand, SAMPLES / 2, true)?,
            (Job::RunCasing, Operation::RunningCasing) => {
                if let Some(casing) = &*this.casing {
                    // A liner goes in on drill pipe: joints first, stands after them.
                    let length = casing.shoe - casing.top;
                    moves((0.0, length), casing.joint_length, SAMPLES, false)?;
                    moves((length, casing.shoe), stand, SAMPLES, false)?;
                }
            }
            (Job::Flat, Operation::RunningCasing) => part.steady(step.time, Load::idle(fit).total()),
            (Job::Drill | Job::Core, Operation::Drilling) => {
                let time = (bottom - top) / this.drilling.penetration_rate;
                for depth in middles(top, bottom, SAMPLES / 2) {
                    part.steady(time / (SAMPLES / 2) as f64, Load::of(&at(operation, depth, depth), &mut Off)?.total());
                }
            }
            // Each stand is reamed pumping and turning, like mud that is circulated.
            (Job::Drill | Job::Core, Operation::Circulating) => {
                let time = time::reaming(fit, section, bottom - top);
                if time > 0.0 {
                    let middle = 0.5 * (top + bottom);
                    part.steady(time, Load::of(&at(operation, middle, middle), &mut Off)?.total());
                }
            }
            (Job::Circulate, Operation::Circulating) if step.time > 0.0 => {
                part.steady(step.time, Load::of(&at(operation, hole, hole), &mut Off)?.total());
            }
            _ => {}
        }
    }
    Ok(part)
}

const COLUMNS: &[(&str, Kind)] = &[
    ("section", Kind::Count),
    ("time", Kind::Time),
    ("mean power", Kind::Power),
    ("peak", Kind::Power),
    ("fuel", Kind::FluidVolume),
    ("best sets", Kind::Count),
    ("fuel with them", Kind::FluidVolume),
    ("best sets with one to lose", Kind::Count),
];

/// What the programme takes.
pub(super) fn programme<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let sets = &fit.rig.sets;
    if sets.fuel.is_empty() {
        return Answer::Missing(vec!["rig.sets.fuel"]);
    }
    let on_site = match site::rating(scene, rec) {
        Ok(rating) => rating,
        Err(missing) => return Answer::Missing(missing),
    };
    let (curve, ratings) = (fuel::curve(scene), (sets.rating, on_site));
    let (mut time, mut today, mut best, mut safe) = (0.0, Some(0.0), Some(0.0), Some(0.0));
    let add = |sum: &mut Option<f64>, more: Option<f64>| *sum = sum.zip(more).map(|(sum, more)| sum + more);
    for operation in WORK {
        rec.heading(operation.name());
        let mut rows = Vec::new();
        for section in 0..fit.well.sections.len() {
            let part = match part(scene, section, operation) {
                Ok(part) => part,
                Err(entry) => return Answer::Missing(vec![entry]),
            };
            if part.pieces.is_empty() {
                continue;
            }
            let now = part.fuel(&curve, sets.rating, sets.on_line);
            let least = part.best(&curve, ratings, sets.number, 0);
            let with_one_to_lose = part.best(&curve, ratings, sets.number, 1);
            time += part.time();
            add(&mut today, now);
            add(&mut best, least.map(|least| least.1));
            add(&mut safe, with_one_to_lose.map(|least| least.1));
            if R::ON {
                let ((sets, fuel), safe) = (least.unwrap_or((0, 0.0)), with_one_to_lose.map_or(0, |least| least.0));
                let mean = part.energy() / part.time();
                let section = section as f64 + 1.0;
                rows.push(vec![
                    section,
                    part.time(),
                    mean,
                    part.peak,
                    now.unwrap_or(0.0),
                    f64::from(sets),
                    fuel,
                    f64::from(safe),
                ]);
            }
        }
        rec.table("by section; nought where the sets do not carry it", COLUMNS, || rows);
    }
    rec.heading("the whole programme");
    let mut figures = vec![Figure { name: "time of what is looked at", value: time, kind: Kind::Time }];
    let emission_factor = sets.emission_factor;
    let ways = [
        (today, FUEL_TODAY, "carbon dioxide with the sets on line today"),
        (best, "fuel with the best number of sets for each operation", "carbon dioxide with them"),
        (safe, "fuel with the best number that still carries each operation with one lost", "carbon dioxide with one to lose"),
    ];
    for (fuel_used, burnt, emitted) in ways {
        let Some(fuel_used) = fuel_used else { continue };
        figures.push(Figure { name: burnt, value: fuel_used, kind: Kind::FluidVolume });
        let mass = rec.take(CarbonDioxide { fuel_used, emission_factor });
        figures.push(Figure { name: emitted, value: mass, kind: Kind::Mass });
    }
    Answer::Told(figures)
}
