//! What motors and tools in the string bear: flow from both sides, and temperature.

use crate::geometry::Pipe;
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::{Kind, Recorder};
use rigwright_well::{Part, PartKind};

const NO_TOOLS: Answer = Answer::DoesNotArise("no motor or tool in the string");

/// The worst of all motors and tools by one of their limits.
fn each<R: Recorder>(
    scene: &Scene,
    rec: &mut R,
    missing: &'static str,
    mut judge: impl FnMut(&mut R, &Part, f64) -> Option<Judged>,
) -> Answer {
    let (mut judgements, mut unknown, mut any) = (Vec::new(), false, false);
    for piece in scene.string() {
        let Pipe::Part(part) = piece.pipe else { continue };
        if !matches!(part.kind, PartKind::Motor | PartKind::Tool) {
            continue;
        }
        any = true;
        rec.stretch(|| part.name.clone(), piece.top, piece.bottom);
        match judge(rec, part, piece.bottom) {
            Some(judged) => judgements.push(judged),
            None => unknown = true,
        }
    }
    let worst = worst(judgements);
    let short = worst.is_some_and(|judged| judged.room() < 0.0);
    match worst {
        // A tool that nobody knows may bear less, unless a known one is passed already.
        _ if unknown && !short => Answer::Missing(vec![missing]),
        Some(judged) => Answer::Judged(judged),
        None if any => Answer::Missing(vec![missing]),
        None => NO_TOOLS,
    }
}

pub(super) fn flow_most<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let (flow, share) = (scene.section().drilling.flow_rate, scene.fit().well.reserves.machinery);
    rec.given("flow rate wanted", flow, Kind::FlowRate);
    each(scene, rec, "section[].string[].flow_most", |rec, part, depth| {
        let capacity = part.flow_most?;
        rec.given("greatest flow that it bears", capacity, Kind::FlowRate);
        let limit = Limit { capacity, reserve: share * capacity, name: "greatest flow of the tool", source: "its maker's sheet" };
        Some(Judged { demand: flow, limit, place: Place::Depth(depth), zero: 0.0 })
    })
}

pub(super) fn flow_least<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let (flow, share) = (scene.section().drilling.flow_rate, scene.fit().well.reserves.machinery);
    rec.given("flow rate wanted", flow, Kind::FlowRate);
    each(scene, rec, "section[].string[].flow_least", |rec, part, depth| {
        let demand = part.flow_least?;
        rec.given("least flow with which it works", demand, Kind::FlowRate);
        let limit = Limit { capacity: flow, reserve: share * flow, name: "flow rate of the section", source: "the well file" };
        Some(Judged { demand, limit, place: Place::Depth(depth), zero: 0.0 })
    })
}

pub(super) fn temperature<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let well = &scene.fit().well;
    let start = well.elevation + well.water_depth;
    each(scene, rec, "section[].string[].temperature_limit", |rec, part, depth| {
        let capacity = part.temperature_limit?;
        let vertical_depth = scene.vertical_depth(depth);
        rec.given("vertical depth of its lower end", vertical_depth, Kind::Depth);
        let demand = well.geotherm.at(vertical_depth, start);
        rec.given("temperature of the undisturbed rock there", demand, Kind::Temperature);
        rec.given("temperature that it bears", capacity, Kind::Temperature);
        // Counted from the ground: a share of an absolute temperature says nothing.
        let zero = well.geotherm.surface;
        let reserve = (well.reserves.strength * (capacity - zero)).max(1.0);
        let limit = Limit { capacity, reserve, name: "temperature that the tool bears", source: "its maker's sheet" };
        Some(Judged { demand, limit, place: Place::Depth(depth), zero })
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Verdict, sweep};
    use rigwright_physics::{Off, Working};
    use rigwright_well::Fit;

    fn ask(fit: &Fit, question: fn(&Scene, &mut Off) -> Answer) -> Answer {
        let basis = Basis::new(fit);
        question(&Scene::new(&basis, sweep::section_end(fit, 2)), &mut Off)
    }

    /// The example with a motor above the bit.
    fn motor(least: Option<f64>, most: Option<f64>, temperature: Option<f64>) -> Fit {
        let mut fit = crate::example("ostrick");
        let string = &mut fit.well.sections[2].string;
        let part = Part {
            kind: PartKind::Motor,
            name: "motor".into(),
            length: 8.0,
            flow_least: least,
            flow_most: most,
            temperature_limit: temperature,
            ..string[1].clone()
        };
        string.insert(1, part);
        fit
    }

    #[test]
    fn law_no_tools_no_question() {
        let fit = crate::example("ostrick");
        assert_eq!(ask(&fit, flow_most::<Off>), NO_TOOLS);
        let bare = motor(None, None, None);
        assert_eq!(ask(&bare, flow_least::<Off>), Answer::Missing(vec!["section[].string[].flow_least"]));
        assert_eq!(ask(&bare, temperature::<Off>), Answer::Missing(vec!["section[].string[].temperature_limit"]));
    }

    #[test]
    fn law_verdicts_flip_at_both_ends_of_the_range() {
        let flow = crate::example("ostrick").well.sections[2].drilling.flow_rate;
        for (edge, verdict) in [(1.0 - 1e-12, Verdict::Short), (1.0 + 1e-12, Verdict::Thin)] {
            assert_eq!(ask(&motor(None, Some(flow * edge), None), flow_most::<Off>).verdict(), verdict);
            assert_eq!(ask(&motor(Some(flow / edge), None, None), flow_least::<Off>).verdict(), verdict);
        }
    }

    /// 68 degF at the ground and 1.4 degF more for every 100 ft below the rotary table's 28 ft: 221.6 degF at 11,000 ft
    /// less the bit's 0.9 ft.
    #[test]
    fn law_temperature_of_the_rock_by_hand() {
        let fit = motor(None, None, Some(400.0));
        let found = *ask(&fit, temperature::<Off>).judged().unwrap();
        let fahrenheit = 68.0 + 1.4 / 100.0 * (11_000.0 - 0.9 - 28.0);
        assert!((found.demand - (fahrenheit + 459.67) / 1.8).abs() < 1e-6);
        let basis = Basis::new(&fit);
        let mut working = Working::default();
        let shown = temperature(&Scene::new(&basis, sweep::section_end(&fit, 2)), &mut working);
        assert_eq!(shown, Answer::Judged(found));
    }
}
