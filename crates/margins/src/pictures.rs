//! Fields for figures: along the hole, over the flow, over time. Judgements are made by the questions; here stand the same
//! fields at more places, so that a picture computes nothing of its own.

use crate::circulating::pumps::pump_output;
use crate::circulating::safe_speed;
use crate::control::managed::plan::Plan;
use crate::power::trace::{self, PowerTrace};
use crate::{Answer, Basis, Judged, Place, Question, Scene, Scope, question, sweep};
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::circulating::pumps::{PumpFlow, PumpInputPower};
use rigwright_physics::control::accumulator::AccumulatorDemand;
use rigwright_physics::{Formula, Off};
use rigwright_well::{Fit, Operation, Situation};

/// Even steps of what runs over the flow or along the hole.
const STEPS: u32 = 60;
/// How far beyond the planned flow, where the pumps could go further. [-]
const BEYOND: f64 = 1.4;
/// A place of an answer this near to where one looked is that place. [m]
const SAME_DEPTH: f64 = 1e-6;

fn even(from: f64, to: f64) -> impl Iterator<Item = f64> {
    (0..=STEPS).map(move |step| from + (to - from) * f64::from(step) / f64::from(STEPS))
}

/// The answers of a question along the hole in one situation, from surface down; empty for a question that has one place.
pub fn along(fit: &Fit, question: &Question, situation: &Situation) -> Vec<(f64, Judged)> {
    if question.scope != Scope::Situation || situation.section >= fit.well.sections.len() {
        return Vec::new();
    }
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, *situation);
    let mut depths: Vec<f64> = even(0.0, situation.bit_depth).collect();
    depths.extend(scene.annuli().iter().flat_map(|annulus| [annulus.top + SAME_DEPTH, annulus.bottom - SAME_DEPTH]));
    depths.extend(scene.string().iter().flat_map(|piece| [piece.top + SAME_DEPTH, piece.bottom - SAME_DEPTH]));
    depths.retain(|depth| (0.0..=situation.bit_depth).contains(depth));
    depths.sort_by(f64::total_cmp);
    let row = |depth: f64| {
        // A scene of its own: what is solved once for a scene was solved for where it looked.
        let mut scene = Scene::new(&basis, *situation);
        scene.at = Some(depth);
        let Answer::Judged(judged) = (question.ask)(&scene, &mut Off) else { return None };
        matches!(judged.place, Place::Depth(place) if (place - depth).abs() < SAME_DEPTH).then_some((depth, judged))
    };
    depths.into_iter().filter_map(row).collect()
}

/// What each part of the circuit takes of the pump's pressure while drilling at the end of a section, in the order in
/// which the mud meets it; `None` where a loss is not known. [Pa]
pub fn circuit_losses(fit: &Fit, section: usize) -> Option<Vec<(&'static str, f64)>> {
    fit.well.sections.get(section)?;
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, sweep::section_end(fit, section));
    let flow = scene.flow(&mut Off);
    if flow.missing.is_some() {
        return None;
    }
    let parts = [
        ("surface lines", flow.surface_loss),
        ("inside the string", flow.string_loss),
        ("motors and tools", flow.tool_loss),
        ("nozzles of the bit", flow.bit_loss),
        ("annulus up to the flowline", flow.annular_loss),
        ("annulus heavier than the string", heavier(&scene)),
        ("back pressure at the choke", scene.situation.back_pressure),
    ];
    let mut shown: Vec<(&str, f64)> = parts.into_iter().filter(|(_, pressure)| pressure.abs() > 1.0).collect();
    shown.push(("standpipe", flow.standpipe));
    Some(shown)
}

/// What the mud in the annulus weighs more than that in the string, for its cuttings and its heat. [Pa]
fn heavier(scene: &Scene) -> f64 {
    let flow = scene.flow(&mut Off);
    let annulus = flow.pieces.iter().map(|piece| {
        let vertical_depth = scene.vertical_depth(piece.annulus.bottom) - piece.vertical_top;
        Hydrostatic { density: piece.density, vertical_depth, gravity: scene.gravity() }.value()
    });
    annulus.sum::<f64>() - flow.string_column
}

/// Standpipe pressure over the flow, off bottom in a clean hole, with the nozzles in the bit, and what bounds both.
#[derive(Clone, Debug)]
pub struct FlowMap {
    /// Flow and standpipe pressure. [m³/s, Pa]
    pub standpipe: Vec<(f64, f64)>,
    /// Flow and the pressure that liners and lines bear. [m³/s, Pa]
    pub rating: Vec<(f64, f64)>,
    /// Flow and the pressure at which the pumps give all their power. [m³/s, Pa]
    pub power: Vec<(f64, f64)>,
    /// The flow that cleans the hole. [m³/s]
    pub least: Option<f64>,
    /// The flow that the pumps give at their largest speed. [m³/s]
    pub most: Option<f64>,
    /// The flow of the well file. [m³/s]
    pub planned: f64,
}

/// The map of a section at its end; `None` where the standpipe pressure is not known.
pub fn flow_map(fit: &Fit, section: usize) -> Option<FlowMap> {
    let planned = fit.well.sections.get(section)?.drilling.flow_rate;
    let basis = Basis::new(fit);
    let bottom = fit.well.sections[section].bottom;
    let end = sweep::situation(fit, section, Operation::Circulating, bottom, bottom);
    let at = |flow_rate: f64| Scene::new(&basis, Situation { flow_rate, ..end });
    let here = at(planned);
    let pumps = here.section().drilling.pumps_on as f64;
    let most =
        pump_output(&here, &mut Off).map(|pump_output| PumpFlow { pump_output, pump_speed: fit.rig.pump.speed, pumps }.value());
    let farthest = most.unwrap_or(planned * BEYOND).max(planned) * 1.05;
    let pressure = question("circulating/standpipe-pressure")?;
    let mut map = FlowMap { standpipe: Vec::new(), rating: Vec::new(), power: Vec::new(), least: None, most, planned };
    for flow_rate in even(farthest / f64::from(STEPS), farthest) {
        let scene = at(flow_rate);
        if scene.flow(&mut Off).missing.is_some() {
            return None;
        }
        map.standpipe.push((flow_rate, scene.flow(&mut Off).standpipe));
        if let Answer::Judged(judged) = (pressure.ask)(&scene, &mut Off) {
            map.rating.push((flow_rate, judged.limit.capacity));
        }
        // Power grows in step with the pressure.
        let mechanical_efficiency = fit.rig.pump.mechanical_efficiency;
        let unit = PumpInputPower { pressure: 1.0, flow_rate: flow_rate / pumps, mechanical_efficiency }.value();
        map.power.push((flow_rate, fit.rig.pump.power / unit));
    }
    // Where liners bear less than full power gives, only that part of its curve is of use.
    if let Some(highest) = map.rating.iter().map(|row| row.1).reduce(f64::max) {
        map.power.retain(|row| row.1 <= 1.3 * highest);
    }
    let drilling = Scene::new(&basis, sweep::section_end(fit, section));
    map.least = drilling.cleaning().map(|wanted| wanted.flow_rate).filter(|least| *least <= farthest);
    Some(map)
}

/// The fastest safe mean speed by bit or shoe depth, stand by stand. [m, m/s]
pub fn safe_speeds(fit: &Fit, section: usize, operation: Operation) -> Vec<(f64, f64)> {
    let Some(this) = fit.well.sections.get(section) else { return Vec::new() };
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, sweep::situation(fit, section, operation, this.bottom, this.bottom));
    if scene.prepared_flow().mud.is_none() {
        return Vec::new();
    }
    safe_speed::by_stand(&scene, operation)
}

/// Power against time through one stand of a trip or one connection at the end of a section; `None` where it is not known.
pub fn power_cycle(fit: &Fit, section: usize, operation: Operation) -> Option<PowerTrace> {
    let bottom = fit.well.sections.get(section)?.bottom;
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, sweep::situation(fit, section, operation, bottom, bottom));
    trace::cycle(&scene, &mut Off)?.ok()
}

/// What the sets on line bear in an operation at the end of a section, peaks included. [W]
pub fn sets_bear(fit: &Fit, section: usize, operation: Operation) -> Option<f64> {
    let bottom = fit.well.sections.get(section)?.bottom;
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, sweep::situation(fit, section, operation, bottom, bottom));
    match (question("power/peak")?.ask)(&scene, &mut Off) {
        Answer::Judged(judged) => Some(judged.limit.capacity),
        _ => None,
    }
}

/// Rock temperature by vertical depth, down to the deepest point of the well. [m, K]
pub fn rock_temperature(fit: &Fit) -> Vec<(f64, f64)> {
    let well = &fit.well;
    let deepest = well.sections.iter().map(|section| well.path.vertical_depth_at(section.bottom)).fold(0.0, f64::max);
    let start = well.elevation + well.water_depth;
    even(start.min(deepest), deepest).map(|depth| (depth, well.geotherm.at(depth, start))).collect()
}

/// The back pressure that holds the anchor as the pumps are slowed to rest for a connection at the end of a section, from the
/// full flow down. Empty for a section without managed pressure. [m³/s, Pa]
pub fn back_pressures(fit: &Fit, section: usize) -> Vec<(f64, f64)> {
    if section >= fit.well.sections.len() {
        return Vec::new();
    }
    let basis = Basis::new(fit);
    let plan = Plan::new(&Scene::new(&basis, sweep::section_end(fit, section)), &mut Off);
    let steps = plan.and_then(Result::ok).map(|plan| plan.steps).unwrap_or_default();
    steps.iter().map(|step| (step.flow_rate, step.back_pressure)).collect()
}

/// Fluid of the accumulator. [m³]
#[derive(Clone, Copy, Debug)]
pub struct Accumulator {
    /// What the bottles give down to the lowest useful pressure.
    pub usable: f64,
    /// What the code wants in hand: the closing volumes times the design factor.
    pub wanted: f64,
    /// What closing every preventer once takes.
    pub closing: f64,
    /// What is left to use after that.
    pub left: f64,
}

/// The accumulator before and after every preventer is closed once; `None` where something is not known.
pub fn accumulator(fit: &Fit) -> Option<Accumulator> {
    let last = fit.well.sections.len().checked_sub(1)?;
    let basis = Basis::new(fit);
    let scene = Scene::new(&basis, sweep::section_end(fit, last));
    let Answer::Judged(judged) = (question("control/accumulator")?.ask)(&scene, &mut Off) else { return None };
    let design_factor = (*fit.rig.accumulator)?.design_factor?;
    let once = AccumulatorDemand { design_factor, closing_volume: 1.0 }.value();
    let closing = judged.demand / once;
    let usable = judged.limit.capacity;
    Some(Accumulator { usable, wanted: judged.demand, closing, left: (usable - closing).max(0.0) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Review, example};
    use rigwright_well::ManagedPressure;

    /// Definition: what the parts take is what the pump gives.
    #[test]
    fn law_the_parts_of_the_circuit_add_up_to_the_standpipe() {
        for (name, section) in [("ostrick", 2), ("tolvane", 1)] {
            let parts = circuit_losses(&example(name), section).unwrap();
            let (standpipe, parts) = parts.split_last().unwrap();
            let sum: f64 = parts.iter().map(|part| part.1).sum();
            assert!((sum / standpipe.1 - 1.0).abs() < 1e-9, "{name}: {sum} {}", standpipe.1);
        }
    }

    /// Definition: along the hole nothing is worse than the answer that governs, and somewhere it is met.
    #[test]
    fn law_the_worst_along_the_hole_is_the_answer() {
        let fit = example("tolvane");
        let review = Review::without_remedies(&fit);
        let mut met = 0;
        for slug in ["circulating/cleaning", "rotating/pipe-strength"] {
            let asked = review.find(slug, Some(2)).unwrap();
            let governing = asked.answer.judged().unwrap();
            let rows = along(&fit, asked.question, &asked.situation);
            assert!(rows.len() > 40, "{slug}: {}", rows.len());
            let least = rows.iter().map(|row| row.1.room()).fold(f64::INFINITY, f64::min);
            assert!(least > governing.room() - 1e-6 * governing.room().abs(), "{slug}");
            met += usize::from((least / governing.room() - 1.0).abs() < 0.02);
        }
        assert_eq!(met, 2);
    }

    /// Definition: at the planned flow the curve stands where the field stands.
    #[test]
    fn law_the_flow_map_passes_through_the_plan() {
        let fit = example("ostrick");
        let map = flow_map(&fit, 2).unwrap();
        let basis = Basis::new(&fit);
        let bottom = fit.well.sections[2].bottom;
        let scene = Scene::new(&basis, sweep::situation(&fit, 2, Operation::Circulating, bottom, bottom));
        let standpipe = scene.flow(&mut Off).standpipe;
        let above = map.standpipe.iter().position(|row| row.0 >= map.planned).unwrap();
        let ((q0, p0), (q1, p1)) = (map.standpipe[above - 1], map.standpipe[above]);
        let there = p0 + (p1 - p0) * (map.planned - q0) / (q1 - q0);
        assert!((there / standpipe - 1.0).abs() < 2e-3, "{there} {standpipe}");
        assert!(map.standpipe.windows(2).all(|pair| pair[1].1 > pair[0].1), "more flow takes more pressure");
    }

    /// Definition: as the pumps slow down, friction goes and back pressure takes its place.
    #[test]
    fn law_back_pressure_replaces_friction() {
        let mut fit = example("tolvane");
        assert!(back_pressures(&fit, 2).is_empty(), "drilled without back pressure");
        let managed = ManagedPressure {
            flowing: 0.5e6,
            still: 2.5e6,
            anchor: None,
            pressure_limit: None,
            influx_operating: None,
            influx_planned: None,
            leak_rate: None,
            run_down: None,
            response_time: None,
        };
        fit.well.sections[2].managed_pressure = Some(managed);
        let rows = back_pressures(&fit, 2);
        assert!((rows[0].1 - managed.flowing).abs() < 1.0, "{} {}", rows[0].1, managed.flowing);
        assert!(rows.windows(2).all(|pair| pair[1].1 >= pair[0].1 - 1.0), "less flow needs no less back pressure");
    }

    /// Definition: the slowest of the speeds by stand is no slower than the one told for the section.
    #[test]
    fn law_no_stand_must_be_slower_than_the_section() {
        let fit = example("tolvane");
        let review = Review::without_remedies(&fit);
        let Answer::Told(figures) = &review.find("circulating/safe-speed", Some(2)).unwrap().answer else { panic!("told") };
        let told = figures.iter().find(|figure| figure.name == "fastest pulling out").unwrap().value;
        let rows = safe_speeds(&fit, 2, Operation::PullingOut);
        assert!(rows.len() > 50);
        assert!(rows.iter().all(|row| row.1 >= told * (1.0 - 1e-6)));
    }

    #[test]
    fn law_what_closing_takes_is_gone() {
        let known = accumulator(&example("ostrick")).unwrap();
        assert!((known.usable - known.closing - known.left).abs() < 1e-12);
        assert!(known.wanted >= known.closing);
    }
}
