//! What stands between the formation and the floor: two barriers in every operation, a valve for every connection of the
//! string, and steel that bears hydrogen sulphide.

use super::preventers::stack_closes;
use crate::fields::influx::surface_pressure;
use crate::geometry::Pipe;
use crate::question::{Question, Scope};
use crate::{Answer, Judged, Limit, Place, Scene, sweep};
use rigwright_physics::control::choke::PartialPressure;
use rigwright_physics::{Kind, Off, Recorder, STANDARD_ATMOSPHERE, Working};
use rigwright_well::{Operation, PartKind};
use std::collections::BTreeSet;

/// Partial pressure of hydrogen sulphide from which steel must be made for it: ISO 15156-2, from memory. [Pa]
const SOUR_LIMIT: f64 = 300.0;

/// Its questions.
pub(super) const QUESTIONS: &[Question] = &[
    Question {
        slug: "control/barriers",
        asks: "Do two barriers stand between the formation and the floor in every operation, the second one tested?",
        title: "two barriers",
        kind: Kind::Count,
        scope: Scope::Section,
        knobs: &["mud weight"],
        assumes: &[
            "first barrier: mud, with its back pressure where some is held, at or over pore pressure at every depth of open hole",
            "second barrier: preventers that close on what stands across them, with wellhead and casing, a test of them on record; whether the test is due is told by `due`",
        ],
        ask: barriers::<Off>,
        show: barriers::<Working>,
    },
    Question {
        slug: "control/safety-valve",
        asks: "Is there a safety valve, or a crossover to one, for every connection that may stand at the floor?",
        title: "safety valves",
        kind: Kind::Count,
        scope: Scope::Section,
        knobs: &[],
        assumes: &["connections are the same when they are written the same; valves stand open at the floor, with their key"],
        ask: safety_valve::<Off>,
        show: safety_valve::<Working>,
    },
    Question {
        slug: "control/sour",
        asks: "Is every rated part made for sour service where the partial pressure of hydrogen sulphide asks for it?",
        title: "sour service",
        kind: Kind::Ratio,
        scope: Scope::Section,
        knobs: &[],
        assumes: &[
            "partial pressure at the anticipated surface pressure against 0.3 kPa (ISO 15156-2, from memory; verify the current text): temperature, acidity and chlorides may ask for more",
            "preventers, wellhead, manifold and the casing in the hole; drill pipe, tools and elastomers are not looked at",
        ],
        ask: sour::<Off>,
        show: sour::<Working>,
    },
];

/// Of parts that must not be wanting: half a part is the limit, so that none holds and one is short.
fn wanting(demand: f64, name: &'static str, source: &'static str) -> Answer {
    let limit = Limit { capacity: 0.5, reserve: 0.5, name, source };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

fn barriers<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let section = scene.situation.section;
    if fit.well.casing_above(section).is_none() {
        return super::DIVERTED;
    }
    if fit.rig.stack.is_empty() {
        return Answer::Missing(vec!["rig.preventer[]"]);
    }
    if !fit.well.last_done.iter().any(|done| done.what == "preventer-pressure-test") {
        return Answer::Missing(vec!["last_done[]"]);
    }
    let bottom = scene.section().bottom;
    let shoe = scene.section().casing.as_ref().map(|casing| casing.shoe);
    let mut worst = 0.0f64;
    for (operation, bit) in [
        (Operation::Circulating, Some(bottom)),
        (Operation::Connection, Some(bottom)),
        (Operation::PullingOut, Some(bottom)),
        (Operation::RunningIn, Some(bottom)),
        (Operation::RunningCasing, shoe),
    ] {
        let Some(bit) = bit else { continue };
        let there = Scene::new(scene.basis, sweep::situation(fit, section, operation, bottom, bit));
        let flow = there.flow(&mut Off);
        if let Some(entry) = flow.missing.filter(|_| flow.pieces.is_empty()) {
            return Answer::Missing(vec![entry]);
        }
        let over = |at: &crate::fields::open_hole::Point| flow.pressure_at(at.depth, at.vertical_depth) - at.pore;
        let open = scene.prepared_flow().open_hole.points();
        let least = open.iter().map(over).fold(f64::INFINITY, f64::min);
        let (mud, stack) = (least >= 0.0, stack_closes(&there).unwrap_or(false));
        if R::ON {
            rec.heading(operation.name());
            if least.is_finite() {
                rec.given("mud over pore pressure, least over the open hole", least, Kind::Pressure);
            }
            let word = |stands: bool| if stands { "stands" } else { "DOES NOT STAND" };
            rec.note(|| format!("mud {}; preventers on what is across them: {}", word(mud), word(stack)));
        }
        worst = worst.max(2.0 - f64::from(u8::from(mud)) - f64::from(u8::from(stack)));
    }
    wanting(worst, "barriers that are wanting", "mud, and preventers of the rig file")
}

fn safety_valve<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let parts = scene.string().iter().filter_map(|piece| match piece.pipe {
        Pipe::Part(part) if matches!(part.kind, PartKind::Collar | PartKind::HeavyWeight | PartKind::DrillPipe) => Some(part),
        _ => None,
    });
    let mut connections = BTreeSet::new();
    for part in parts {
        let Some(connection) = &part.connection else { return Answer::Missing(vec!["section[].string[].connection"]) };
        connections.insert(connection.as_str());
    }
    if connections.is_empty() {
        return Answer::DoesNotArise("nothing in the string stands at the floor");
    }
    if fit.rig.safety_valves.is_empty() {
        return Answer::Missing(vec!["rig.safety_valve[]"]);
    }
    rec.heading("connections that may stand at the floor");
    let same = |a: &str, b: &str| a.trim().eq_ignore_ascii_case(b.trim());
    let valve = |connection: &str| fit.rig.safety_valves.iter().any(|valve| same(&valve.connection, connection));
    rec.given("connections that may stand at the floor", connections.len() as f64, Kind::Count);
    let mut demand = 0.0;
    for connection in connections {
        let over = fit.rig.crossovers.iter().find(|sub| same(&sub.below, connection) && valve(&sub.above));
        rec.note(|| match (valve(connection), over) {
            (true, _) => format!("{connection}: a valve of its own"),
            (false, Some(sub)) => format!("{connection}: by a crossover to {}", sub.above),
            (false, None) => format!("{connection}: NO valve and no crossover to one"),
        });
        if !valve(connection) && over.is_none() {
            demand += 1.0;
        }
    }
    wanting(demand, "connections without a valve", "safety valves and crossovers of the rig file")
}

fn sour<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if fit.well.casing_above(scene.situation.section).is_none() {
        return super::DIVERTED;
    }
    let Some(fraction) = fit.well.kick.sulphide else { return Answer::Missing(vec!["kick.hydrogen_sulphide"]) };
    let Some(surface) = surface_pressure(scene, rec) else {
        return Answer::DoesNotArise("the gas is colder than its correlation can tell");
    };
    rec.heading("hydrogen sulphide at surface");
    let absolute_pressure = surface.pressure + STANDARD_ATMOSPHERE;
    let partial = rec.take(PartialPressure { fraction, absolute_pressure });
    rec.given("partial pressure from which parts must be made for it", SOUR_LIMIT, Kind::AbsolutePressure);
    let limit = Limit {
        capacity: 1.0,
        reserve: fit.well.reserves.pressure,
        name: "partial pressure over its limit",
        source: "ISO 15156-2, from memory; verify the current text",
    };
    let judged = Judged { demand: partial / SOUR_LIMIT, limit, place: Place::Surface, zero: 0.0 };
    if judged.room() >= 0.0 {
        return Answer::Judged(judged);
    }
    let casings = fit.well.sections[..scene.situation.section].iter().filter_map(|above| above.casing.as_ref());
    let parts: Vec<(&str, Option<bool>, &'static str)> = fit
        .rig
        .stack
        .iter()
        .map(|one| (one.name.as_str(), one.sour, "rig.preventer[].sour"))
        .chain([
            ("wellhead", fit.rig.wellhead_sour, "rig.wellhead.sour"),
            ("choke manifold", fit.rig.manifold_sour, "rig.choke_manifold.sour"),
        ])
        .chain(casings.map(|casing| (casing.name.as_str(), casing.sour, "section[].casing.sour")))
        .collect();
    for (name, made, _) in &parts {
        let word = match made {
            Some(true) => "made for sour service",
            Some(false) => "NOT made for sour service",
            None => "nobody knows",
        };
        rec.note(|| format!("{name}: {word}"));
    }
    if parts.iter().any(|(_, made, _)| *made == Some(false)) {
        return Answer::Judged(judged);
    }
    let mut missing: Vec<&'static str> = parts.iter().filter(|(_, made, _)| made.is_none()).map(|(.., entry)| *entry).collect();
    missing.dedup();
    if missing.is_empty() {
        return Answer::DoesNotArise("every rated part is made for sour service");
    }
    Answer::Missing(missing)
}

#[cfg(test)]
mod tests {
    use crate::{Answer, Verdict, explain, question};
    use rigwright_well::{Crossover, Fit, LastDone, PreventerKind, SafetyValve, ShearTest};

    fn ask(fit: &Fit, slug: &str) -> Answer {
        let address = crate::Address { section: Some(2), ..Default::default() };
        explain(fit, question(slug).unwrap(), &address).unwrap().asked.answer
    }

    fn tested() -> Fit {
        let mut fit = crate::example("ostrick");
        let date = jiff::civil::date(2026, 11, 1);
        fit.well.last_done = vec![LastDone { what: "preventer-pressure-test".into(), date }];
        fit
    }

    #[test]
    fn law_a_barrier_that_is_wanting_is_short() {
        let mut fit = tested();
        assert_eq!(ask(&fit, "control/barriers").verdict(), Verdict::Holds);
        // Mud under pore pressure leaves one barrier.
        fit.well.sections[2].mud.weight *= 0.8;
        assert_eq!(ask(&fit, "control/barriers").verdict(), Verdict::Short);
        let mut fit = tested();
        fit.rig.stack.retain(|one| one.kind == PreventerKind::BlindShearRam);
        assert_eq!(ask(&fit, "control/barriers").verdict(), Verdict::Short);
        assert_eq!(ask(&fit, "control/closes-on-all").verdict(), Verdict::Short);
        fit.well.last_done.clear();
        assert_eq!(ask(&fit, "control/barriers"), Answer::Missing(vec!["last_done[]"]));
    }

    #[test]
    fn law_a_connection_without_a_valve_is_short() {
        let mut fit = tested();
        for part in fit.well.sections[2].string.iter_mut() {
            part.connection = Some("NC50".into());
        }
        fit.well.sections[2].string[1].connection = Some("NC46".into());
        fit.rig.safety_valves = vec![SafetyValve { connection: "nc50".into(), rating: None }];
        fit.rig.crossovers = Vec::new();
        assert_eq!(ask(&fit, "control/safety-valve").verdict(), Verdict::Short);
        fit.rig.crossovers = vec![Crossover { below: "NC46".into(), above: "NC50".into() }];
        assert_eq!(ask(&fit, "control/safety-valve").verdict(), Verdict::Holds);
        fit.well.sections[2].string[1].connection = None;
        assert_eq!(ask(&fit, "control/safety-valve"), Answer::Missing(vec!["section[].string[].connection"]));
    }

    #[test]
    fn law_sour_parts_are_asked_for_from_the_limit_on() {
        let mut fit = tested();
        fit.well.kick.sulphide = Some(0.0);
        assert_eq!(ask(&fit, "control/sour").verdict(), Verdict::Holds);
        fit.well.kick.sulphide = Some(0.01);
        fit.rig.wellhead_sour = Some(false);
        assert_eq!(ask(&fit, "control/sour").verdict(), Verdict::Short);
        for one in fit.rig.stack.iter_mut() {
            one.sour = Some(true);
        }
        fit.rig.wellhead_sour = Some(true);
        fit.rig.manifold_sour = None;
        for section in &mut fit.well.sections {
            if let Some(casing) = &mut *section.casing {
                casing.sour = Some(true);
            }
        }
        assert_eq!(ask(&fit, "control/sour"), Answer::Missing(vec!["rig.choke_manifold.sour"]));
        fit.rig.manifold_sour = Some(true);
        assert_eq!(ask(&fit, "control/sour").verdict(), Verdict::DoesNotArise);
    }

    /// p = p_test + p_well/ratio, and never for a pipe heavier than was cut.
    #[test]
    fn law_shears_go_by_tests_alone() {
        let mut fit = tested();
        let pipe = fit.well.sections[2].string.last().unwrap().clone();
        for one in fit.rig.stack.iter_mut().filter(|one| one.kind == PreventerKind::BlindShearRam) {
            one.closing_ratio = Some(10.0);
            one.shear_tests =
                vec![ShearTest { outer_diameter: pipe.outer_diameter, linear_mass: pipe.linear_mass, pressure: 12e6 }];
        }
        let judged = *ask(&fit, "control/shears").judged().unwrap();
        let surface = ask(&fit, "control/stack-rating").judged().unwrap().demand;
        assert!((judged.demand - 12e6 - surface / 10.0).abs() < 1.0);
        fit.well.sections[2].string.last_mut().unwrap().linear_mass *= 1.2;
        assert_eq!(ask(&fit, "control/shears"), Answer::Missing(vec!["rig.preventer[].shear_test[]"]));
    }
}
