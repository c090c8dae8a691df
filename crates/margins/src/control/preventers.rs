//! Preventers and their control fluid beyond ratings and volumes: bore, closing times, shears, what closes on every part, the
//! accumulator by each method, in the cold, and its pumps.

use crate::answer::Figure;
use crate::fields::influx::surface_pressure;
use crate::geometry::{self, Pipe};
use crate::question::{Question, Scope};
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::circulating::passage::LagTime;
use rigwright_physics::control::accumulator::{
    AccumulatorDemand, AccumulatorMethod, AfterSequence, Bottles, RamClosingPressure, precharge_at,
};
use rigwright_physics::{Kind, Off, Recorder, STANDARD_ATMOSPHERE, Working};
use rigwright_well::{Accumulator, Fit, Hung, PartKind, Preventer, PreventerKind};

const STANDARD_53: &str = "API Standard 53, 4th ed. 2012; verify the edition that applies";
/// A preventer is closed in this time; an annular of this bore or more has longer. [s, m]
const RAM_TIME: f64 = 30.0;
const LARGE_ANNULAR_TIME: f64 = 45.0;
const LARGE_ANNULAR: f64 = 18.75 * 0.0254;
/// Pumps charge the bottles from precharge in this time, and with one system lost in this. [s]
const PUMP_TIMES: [f64; 2] = [900.0, 1_800.0];
/// Play that a part wants in the bore: 1/8 in, common practice. [m]
const PLAY: f64 = 0.003_175;
/// Diameters this close are one. [m]
const SAME: f64 = 1e-4;

/// Its questions.
pub(super) const QUESTIONS: &[Question] = &[
    Question {
        slug: "control/stack-bore",
        asks: "Does everything that is run through the stack pass its bore?",
        title: "bore of the stack",
        kind: Kind::Diameter,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["an eighth of an inch of play; bits, joints and couplings by the files, hangers and tools left out"],
        ask: bore::<Off>,
        show: bore::<Working>,
    },
    Question {
        slug: "control/closes-on-all",
        asks: "Does at least one preventer close on every part that can stand across the stack, casing and the empty bore among them?",
        title: "closes on every part",
        kind: Kind::Count,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[
            "an annular preventer closes on any pipe that passes it, on wireline, and once on the empty bore; its makers limit each: see its sheet",
            "tools, stabilisers and bits are pulled or dropped, not closed on",
        ],
        ask: on_all::<Off>,
        show: on_all::<Working>,
    },
    Question {
        slug: "control/shears",
        asks: "Do the shear rams cut the drill pipe with the control pressure at hand, under the pressure that may come?",
        title: "shearing",
        kind: Kind::Pressure,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[
            "from tests alone: the same diameter, and at least the weight of the pipe in the string; joints, collars and casing are not cut",
            "well pressure works against the rams over their closing ratio",
        ],
        ask: shears::<Off>,
        show: shears::<Working>,
    },
    Question {
        slug: "control/closing-time",
        asks: "Does every preventer close in the time that the standard allows?",
        title: "closing times",
        kind: Kind::Time,
        scope: Scope::Rig,
        knobs: &[],
        assumes: &["surface stack: 30 s, and 45 s for an annular of 18 3/4 in or more, by API Standard 53, 4th ed. 2012"],
        ask: closing_time::<Off>,
        show: closing_time::<Working>,
    },
    Question {
        slug: "control/accumulator-methods",
        asks: "What do the bottles give by ideal gas, by real gas slowly and by real gas at once, and what is left after closing all?",
        title: "accumulator, three ways",
        kind: Kind::FluidVolume,
        scope: Scope::Rig,
        knobs: &[],
        assumes: &[
            "one closing of every preventer without pumps; which function goes by which method is for the edition that applies",
        ],
        ask: methods::<Off>,
        show: methods::<Working>,
    },
    Question {
        slug: "control/accumulator-cold",
        asks: "Do the bottles still hold enough when they are as cold as they get?",
        title: "accumulator, cold",
        kind: Kind::FluidVolume,
        scope: Scope::Rig,
        knobs: &[],
        assumes: &["precharged at the temperature of the file; pumps bring the bottles to the same pressure, cold"],
        ask: cold::<Off>,
        show: cold::<Working>,
    },
    Question {
        slug: "control/accumulator-pumps",
        asks: "Do the pumps charge the bottles from precharge in time, all of them and with one system lost?",
        title: "accumulator pumps",
        kind: Kind::Time,
        scope: Scope::Rig,
        knobs: &[],
        assumes: &["15 min with all and 30 min with one system lost, by API Standard 53, 4th ed. 2012", "pump systems alike"],
        ask: pumps::<Off>,
        show: pumps::<Working>,
    },
];

fn missing_stack() -> Answer {
    Answer::Missing(vec!["rig.preventer[]"])
}

/// Everything that goes through the stack while it stands on the well: name and largest diameter. [m]
fn through(scene: &Scene) -> Vec<(String, f64)> {
    let mut parts: Vec<(String, f64)> =
        scene.string().iter().map(|piece| (piece.pipe.name().to_owned(), piece.pipe.joint_diameter())).collect();
    if let Some(casing) = &*scene.section().casing {
        parts.push((casing.name.clone(), Pipe::Casing(casing).joint_diameter()));
    }
    parts
}

fn bore<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if fit.well.casing_above(scene.situation.section).is_none() {
        return super::DIVERTED;
    }
    let Some(capacity) = fit.rig.stack.iter().map(|preventer| preventer.bore).reduce(f64::min) else { return missing_stack() };
    rec.given("smallest bore of the stack", capacity, Kind::Diameter);
    let Some((name, demand)) = through(scene).into_iter().max_by(|a, b| a.1.total_cmp(&b.1)) else {
        return Answer::DoesNotArise("nothing is run through the stack");
    };
    rec.note(|| format!("widest: {name}"));
    rec.given("its largest diameter", demand, Kind::Diameter);
    let limit = Limit { capacity, reserve: PLAY, name: "bore of the stack", source: "nameplate" };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

/// Whether a preventer closes on a diameter.
fn closes(preventer: &Preventer, diameter: f64) -> bool {
    match preventer.kind {
        PreventerKind::Annular => diameter < preventer.bore,
        PreventerKind::PipeRam => {
            preventer.closes_on.is_some_and(|[small, large]| (small - SAME..=large + SAME).contains(&diameter) && diameter > 0.0)
        }
        PreventerKind::BlindRam | PreventerKind::BlindShearRam => diameter <= 0.0,
    }
}

fn on_all<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if fit.well.casing_above(scene.situation.section).is_none() {
        return super::DIVERTED;
    }
    if fit.rig.stack.is_empty() {
        return missing_stack();
    }
    if fit.rig.stack.iter().any(|ram| ram.kind == PreventerKind::PipeRam && ram.closes_on.is_none()) {
        return Answer::Missing(vec!["rig.preventer[].closes_on"]);
    }
    let closed_on = |kind: PartKind| matches!(kind, PartKind::Collar | PartKind::HeavyWeight | PartKind::DrillPipe);
    let mut across: Vec<(String, f64)> = scene
        .string()
        .iter()
        .filter_map(|piece| match piece.pipe {
            Pipe::Part(part) if closed_on(part.kind) => Some((part.name.clone(), part.outer_diameter)),
            _ => None,
        })
        .collect();
    if let Some(casing) = &*scene.section().casing {
        across.push((casing.name.clone(), casing.outer_diameter));
    }
    across.push(("nothing: the empty bore".to_owned(), 0.0));
    let mut demand = 0.0;
    for (name, diameter) in &across {
        let on: Vec<&str> = fit.rig.stack.iter().filter(|one| closes(one, *diameter)).map(|one| one.name.as_str()).collect();
        let cut: Vec<&str> =
            fit.rig.stack.iter().filter(|one| cuts(one, *diameter, None).is_some()).map(|one| one.name.as_str()).collect();
        rec.note(|| {
            let words = |names: &[&str], none: &str| if names.is_empty() { none.to_owned() } else { names.join(", ") };
            format!("{name}: closed on by {}; cut by {}", words(&on, "NOTHING"), words(&cut, "nothing that was tested"))
        });
        if on.is_empty() {
            demand += 1.0;
        }
    }
    // No part may be left without: half a part is the limit, so that none holds and one is short.
    let limit =
        Limit { capacity: 0.5, reserve: 0.5, name: "parts on which nothing closes", source: "preventers of the rig file" };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

/// Control pressure that a test tells for a pipe, without pressure in the well; a heavier pipe than was cut is not told. [Pa]
fn cuts(preventer: &Preventer, diameter: f64, linear_mass: Option<f64>) -> Option<f64> {
    if preventer.kind != PreventerKind::BlindShearRam {
        return None;
    }
    let like = preventer.shear_tests.iter().filter(|test| {
        (test.outer_diameter - diameter).abs() < 1e-3 && linear_mass.is_none_or(|mass| test.linear_mass >= mass * 0.999)
    });
    like.map(|test| test.pressure).reduce(f64::min)
}

fn shears<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if fit.well.casing_above(scene.situation.section).is_none() {
        return super::DIVERTED;
    }
    if fit.rig.stack.is_empty() {
        return missing_stack();
    }
    let rams: Vec<&Preventer> = fit.rig.stack.iter().filter(|one| one.kind == PreventerKind::BlindShearRam).collect();
    if rams.is_empty() {
        return Answer::DoesNotArise("the stack has no shear rams");
    }
    let Some(unit) = *fit.rig.accumulator else { return Answer::Missing(vec!["rig.accumulator"]) };
    let pipes: Vec<_> = scene
        .string()
        .iter()
        .filter_map(|piece| match piece.pipe {
            Pipe::Part(part) if part.kind == PartKind::DrillPipe => Some(part),
            _ => None,
        })
        .collect();
    if pipes.is_empty() {
        return Answer::DoesNotArise("no drill pipe in the string");
    }
    let Some(surface) = surface_pressure(scene, rec) else {
        return Answer::DoesNotArise("the gas is colder than its correlation can tell");
    };
    let mut missing = Vec::new();
    let mut judgements = Vec::new();
    for part in pipes {
        for ram in &rams {
            rec.heading("a pipe and a shear ram");
            rec.note(|| format!("{} in {}", part.name, ram.name));
            let (tested, ratio) = (cuts(ram, part.outer_diameter, Some(part.linear_mass)), ram.closing_ratio);
            if tested.is_none() {
                missing.push("rig.preventer[].shear_test[]");
            }
            if ratio.is_none() {
                missing.push("rig.preventer[].closing_ratio");
            }
            let (Some(seal_pressure), Some(closing_ratio)) = (tested, ratio) else { continue };
            rec.note(|| "The tested pressure stands where the formula has that of the seal.".to_owned());
            let demand = rec.take(RamClosingPressure { well_pressure: surface.pressure, closing_ratio, seal_pressure });
            rec.given("control pressure at hand, charged", unit.charged, Kind::Pressure);
            let limit = Limit {
                capacity: unit.charged,
                reserve: fit.well.reserves.pressure * unit.charged,
                name: "charged accumulator",
                source: "nameplate of the unit, and the shear test of the rig file",
            };
            judgements.push(Judged { demand, limit, place: Place::Surface, zero: 0.0 });
        }
    }
    missing.dedup();
    match worst(judgements) {
        Some(judged) if missing.is_empty() || judged.room() < 0.0 => Answer::Judged(judged),
        _ => Answer::Missing(missing),
    }
}

fn closing_time<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if fit.rig.stack.is_empty() {
        return missing_stack();
    }
    if fit.rig.stack.iter().any(|one| one.closing_time.is_none()) {
        return Answer::Missing(vec!["rig.preventer[].closing_time"]);
    }
    let judgements = fit.rig.stack.iter().filter_map(|one| {
        let demand = one.closing_time?;
        rec.note(|| one.name.clone());
        rec.given("its closing time", demand, Kind::Time);
        let large = one.kind == PreventerKind::Annular && one.bore >= LARGE_ANNULAR - SAME;
        let capacity = if large { LARGE_ANNULAR_TIME } else { RAM_TIME };
        let reserve = fit.well.reserves.volume * capacity;
        let limit = Limit { capacity, reserve, name: "time allowed for closing", source: STANDARD_53 };
        Some(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
    });
    worst(judgements.collect::<Vec<_>>()).map_or_else(missing_stack, Answer::Judged)
}

/// The bottles with absolute pressures.
fn bottles(unit: &Accumulator) -> Bottles {
    Bottles {
        volume: f64::from(unit.bottles) * unit.bottle_volume,
        precharge: unit.precharge + STANDARD_ATMOSPHERE,
        charged: unit.charged + STANDARD_ATMOSPHERE,
        minimum: unit.minimum + STANDARD_ATMOSPHERE,
        temperature: unit.temperature,
    }
}

/// Fluid that closes every preventer once. [m³]
fn closing_volume(fit: &Fit) -> Result<f64, &'static str> {
    if fit.rig.stack.is_empty() {
        return Err("rig.preventer[]");
    }
    let volumes: Option<f64> = fit.rig.stack.iter().map(|preventer| preventer.closing_volume).sum();
    volumes.ok_or("rig.preventer[].closing_volume")
}

const OUT_OF_RANGE: Answer = Answer::DoesNotArise("the bottles are outside what the equation of state for nitrogen covers");

fn methods<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let Some(unit) = *fit.rig.accumulator else { return Answer::Missing(vec!["rig.accumulator"]) };
    let bottles = bottles(&unit);
    let mut figures = Vec::new();
    for (method, heading, name) in [
        (AccumulatorMethod::Ideal, "method A: ideal gas", "usable by method A, ideal gas"),
        (AccumulatorMethod::RealIsothermal, "method B: real gas at one temperature", "usable by method B, real gas, slowly"),
        (AccumulatorMethod::RealAdiabatic, "method C: real gas let down without heat", "usable by method C, real gas, at once"),
    ] {
        rec.heading(heading);
        let Some(value) = bottles.usable(rec, method) else { return OUT_OF_RANGE };
        figures.push(Figure { name, value, kind: Kind::FluidVolume });
    }
    let taken = match closing_volume(fit) {
        Ok(taken) => taken,
        Err(entry) => return Answer::Missing(vec![entry]),
    };
    figures.push(Figure { name: "fluid to close every preventer once", value: taken, kind: Kind::FluidVolume });
    for (method, heading, name, empty) in [
        (
            AccumulatorMethod::RealIsothermal,
            "after closing all, slowly",
            "pressure left after closing all, method B",
            "bottles run empty by method B: they hold",
        ),
        (
            AccumulatorMethod::RealAdiabatic,
            "after closing all, at once",
            "pressure left after closing all, method C",
            "bottles run empty by method C: they hold",
        ),
    ] {
        rec.heading(heading);
        match bottles.after(rec, method, taken) {
            Some(AfterSequence::Pressure(left)) => {
                figures.push(Figure { name, value: left - STANDARD_ATMOSPHERE, kind: Kind::Pressure });
            }
            Some(AfterSequence::Empty(held)) => figures.push(Figure { name: empty, value: held, kind: Kind::FluidVolume }),
            None => return OUT_OF_RANGE,
        }
    }
    figures.push(Figure { name: "smallest pressure at which all still works", value: unit.minimum, kind: Kind::Pressure });
    Answer::Told(figures)
}

fn cold<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let Some(unit) = *fit.rig.accumulator else { return Answer::Missing(vec!["rig.accumulator"]) };
    let Some(coldest) = unit.coldest else { return Answer::DoesNotArise("the rig file tells of no other temperature") };
    let Some(design_factor) = unit.design_factor else { return Answer::Missing(vec!["rig.accumulator.design_factor"]) };
    let closing_volume = match closing_volume(fit) {
        Ok(volume) => volume,
        Err(entry) => return Answer::Missing(vec![entry]),
    };
    let warm = bottles(&unit);
    rec.heading("precharge at the coldest: the gas keeps its density");
    let Some(precharge) = precharge_at(rec, warm.precharge, unit.temperature, coldest) else { return OUT_OF_RANGE };
    rec.given("precharge then, absolute", precharge, Kind::AbsolutePressure);
    rec.heading("what the bottles give then, method B");
    let Some(capacity) = (Bottles { precharge, temperature: coldest, ..warm }).usable(rec, AccumulatorMethod::RealIsothermal)
    else {
        return OUT_OF_RANGE;
    };
    let demand = rec.take(AccumulatorDemand { design_factor, closing_volume });
    let limit = Limit {
        capacity,
        reserve: fit.well.reserves.volume * demand,
        name: "usable fluid by method B, coldest",
        source: "nameplate of the unit; nitrogen by Span et al. 2000",
    };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

fn pumps<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let Some(unit) = *fit.rig.accumulator else { return Answer::Missing(vec!["rig.accumulator"]) };
    let needed = [(unit.pumps.is_none(), "rig.accumulator.pumps"), (unit.pump_rate.is_none(), "rig.accumulator.pump_rate")];
    let (Some(pumps), Some(rate)) = (unit.pumps, unit.pump_rate) else {
        return Answer::Missing(needed.iter().filter(|(wanting, _)| *wanting).map(|(_, entry)| *entry).collect());
    };
    rec.heading("fluid from precharge to charged pressure");
    let Some(volume) = bottles(&unit).fluid(rec) else { return OUT_OF_RANGE };
    let mut judgements = Vec::new();
    for (running, capacity, name) in [
        (pumps, PUMP_TIMES[0], "time allowed, all pumps"),
        (pumps.saturating_sub(1), PUMP_TIMES[1], "time allowed, one pump lost"),
    ] {
        if running == 0 {
            rec.note(|| "With the only pump system lost nothing charges the bottles.".to_owned());
            // No time is long enough: as much over its limit as can be said plainly.
            let limit =
                Limit { capacity, reserve: capacity, name: "one pump system: none left when it is lost", source: STANDARD_53 };
            judgements.push(Judged { demand: 10.0 * capacity, limit, place: Place::Surface, zero: 0.0 });
            continue;
        }
        rec.heading(name);
        let demand = rec.take(LagTime { volume, flow_rate: f64::from(running) * rate });
        let limit = Limit { capacity, reserve: fit.well.reserves.volume * capacity, name, source: STANDARD_53 };
        judgements.push(Judged { demand, limit, place: Place::Surface, zero: 0.0 });
    }
    worst(judgements).map_or_else(missing_stack, Answer::Judged)
}

/// Used by the barriers: whether anything closes on what stands across the stack in a situation.
pub(super) fn stack_closes(scene: &Scene) -> Option<bool> {
    let fit = scene.fit();
    let top = if scene.situation.hung == Hung::Casing {
        scene.section().casing.as_ref().map(|casing| casing.outer_diameter)
    } else {
        geometry::string(fit, &scene.situation).last().map(|piece| piece.pipe.outer_diameter())
    };
    let diameter = top.unwrap_or(0.0);
    (!fit.rig.stack.is_empty()).then(|| fit.rig.stack.iter().any(|one| closes(one, diameter)))
}
