//! The jar: whether the pipe above it bears the pull that fires it while the string is stuck below it.

use super::PULL_SHARE;
use super::body::{is_pipe, worn_diameter};
use crate::geometry::{Pipe, PipePiece};
use crate::{Answer, Judged, Limit, Place, Scene, sweep, worst};
use rigwright_physics::hoisting::{HookLoad, JarTriggerLoad, TravellingWeight};
use rigwright_physics::tubular::{SteelArea, TensionStrength};
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::{Operation, Part};

pub(super) fn jar<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let settings = |piece: &PipePiece| match piece.pipe {
        Pipe::Part(part) => part.trigger_up.map(|up| (piece.top, up, part.trigger_down)),
        Pipe::Casing(_) => None,
    };
    let Some((depth, trigger_up, trigger_down)) = scene.string().iter().find_map(settings) else {
        return Answer::DoesNotArise("no jar in the string, or nobody says at which pull it fires");
    };
    let (section, bottom) = (scene.situation.section, scene.section().bottom);
    let moving = |operation| Scene::new(scene.basis, sweep::situation(fit, section, operation, bottom, bottom));
    let pulled = moving(Operation::PullingOut);
    let drag = pulled.drag(rec);
    let at_jar = drag.at(depth).0;
    rec.heading("the jar");
    rec.given("measured depth of its upper end", depth, Kind::Depth);
    rec.given("pull at which it fires upwards", trigger_up, Kind::Force);
    rec.given("share of the tension strength that may be used", PULL_SHARE, Kind::Fraction);
    let (mut judgements, mut missing) = (Vec::new(), false);
    for piece in scene.string().iter().filter(|piece| piece.bottom <= depth + 1e-6) {
        let Pipe::Part(part) = piece.pipe else { continue };
        if !is_pipe(part) {
            continue;
        }
        rec.stretch(|| part.name.clone(), piece.top, piece.bottom);
        let Some(strength) = strength(part, rec) else {
            missing = true;
            continue;
        };
        let weight_above = drag.at(piece.top).0 - at_jar;
        rec.given("weight and drag between its top and the jar, pulled", weight_above, Kind::Force);
        let (working_tension, pump_open_force) = (PULL_SHARE * strength, 0.0);
        let capacity = rec.take(JarTriggerLoad { working_tension, weight_above, pump_open_force });
        let reserve = (fit.well.reserves.strength * working_tension).max(1.0);
        let source = "API RP 7G, from dimensions, grade and class; the share is common practice";
        let limit = Limit { capacity, reserve, name: "pull that the pipe leaves at the jar", source };
        judgements.push(Judged { demand: trigger_up, limit, place: Place::Depth(piece.top), zero: 0.0 });
    }
    if R::ON {
        let rig = &fit.rig;
        rec.heading("what the hook shows when it fires, the string stuck below it and pumps off");
        let travelling_weight = rec.take(TravellingWeight { block_weight: rig.block.weight, drive_weight: rig.drive.weight });
        rec.given("weight and drag above the jar, pulled", drag.surface_tension - at_jar, Kind::Force);
        let string_load = drag.surface_tension - at_jar + trigger_up;
        rec.take(HookLoad { string_load, travelling_weight });
        if let Some(trigger_down) = trigger_down {
            let lowered = moving(Operation::RunningIn);
            let drag = lowered.drag(&mut Off);
            rec.given("push at which it fires downwards", trigger_down, Kind::Force);
            let above = drag.surface_tension - drag.at(depth).0;
            rec.given("weight less drag above the jar, lowered", above, Kind::Force);
            rec.take(HookLoad { string_load: above - trigger_down, travelling_weight });
        }
        rec.note(|| {
            "Friction grows with the pull in bends: the true pull at the jar is a little less, so pull a little more.".into()
        });
    }
    match worst(judgements) {
        // A part that nobody knows may be the weaker one, unless a known one is passed already.
        Some(judged) if !missing || judged.room() < 0.0 => Answer::Judged(judged),
        _ if missing => Answer::Missing(vec!["section[].string[].grade"]),
        _ => Answer::DoesNotArise("no pipe above the jar"),
    }
}

/// Tension strength of the worn body. [N]
fn strength<R: Recorder>(part: &Part, rec: &mut R) -> Option<f64> {
    let yield_strength = part.yield_strength?;
    let outer_diameter = worn_diameter(part, rec);
    let steel_area = rec.take(SteelArea { outer_diameter, inner_diameter: part.inner_diameter });
    Some(rec.take(TensionStrength { yield_strength, steel_area }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Verdict};
    use rigwright_physics::{Line, Working};
    use rigwright_well::Fit;

    const POUND_FORCE: f64 = 0.453_592_37 * rigwright_physics::STANDARD_GRAVITY;

    /// The example with a jar between collars and heavy-weight pipe.
    fn fit(up: f64) -> Fit {
        let mut fit = crate::example("ostrick");
        let string = &mut fit.well.sections[2].string;
        let jar = Part {
            name: "jar".into(),
            length: 9.5,
            trigger_up: Some(up * POUND_FORCE),
            trigger_down: Some(3e4 * POUND_FORCE),
            ..string[1].clone()
        };
        string.insert(2, jar);
        fit
    }

    fn ask(fit: &Fit) -> Answer {
        let basis = Basis::new(fit);
        jar(&Scene::new(&basis, sweep::section_end(fit, 2)), &mut Off)
    }

    /// Vertical, so without drag but that of swabbed mud: 0.9 of the pipe's 560,800 lbf (Workstrings International, 2011, printed to 100) less what
    /// hangs above the jar in mud leaves the pull; the heavy-weight pipe has more of it.
    #[test]
    fn published_workstrings_pipe_leaves_this_pull() {
        let fit = fit(100_000.0);
        let judged = *ask(&fit).judged().unwrap();
        let section = &fit.well.sections[2];
        let buoyancy = 1.0 - section.mud.weight / rigwright_physics::tubular::STEEL_DENSITY;
        let below: f64 = section.string[..4].iter().map(|part| part.length).sum();
        let pipe =
            section.string[4].linear_mass * (section.bottom - below) + section.string[3].linear_mass * section.string[3].length;
        let basis = Basis::new(&fit);
        let moving = |operation| Scene::new(&basis, sweep::situation(&fit, 2, operation, section.bottom, section.bottom));
        let jar_top = section.bottom - section.string[..3].iter().map(|part| part.length).sum::<f64>();
        let swab = -crate::lift_above(&moving(Operation::PullingOut), jar_top);
        let above = pipe * buoyancy * rigwright_physics::STANDARD_GRAVITY + swab;
        let by_hand = 0.9 * 560_800.0 - above / POUND_FORCE;
        assert!((judged.limit.capacity / POUND_FORCE - by_hand).abs() <= 50.0, "{by_hand}");
        assert_eq!(judged.place, Place::Depth(0.0));
        let mut working = Working::default();
        let shown = jar(&Scene::new(&basis, sweep::section_end(&fit, 2)), &mut working);
        assert_eq!(shown, Answer::Judged(judged));
        let hooks: Vec<f64> = working
            .lines
            .iter()
            .filter_map(|line| match line {
                Line::Step { record, value, .. } if record.slug == "hook-load" => Some(*value),
                _ => None,
            })
            .collect();
        let [up, down] = hooks[..] else { panic!("{hooks:?}") };
        let surge = crate::lift_above(&moving(Operation::RunningIn), jar_top);
        let between = (up - down - swab - surge) / POUND_FORCE;
        assert!((between - 130_000.0).abs() < 1.0, "without drag both settings lie between: {between}");
    }

    #[test]
    fn law_the_verdict_flips_where_the_pipe_bears_no_more() {
        let left = ask(&fit(1.0)).judged().unwrap().limit.capacity / POUND_FORCE;
        assert_eq!(ask(&fit(left * (1.0 + 1e-9))).verdict(), Verdict::Short);
        assert_eq!(ask(&fit(left * (1.0 - 1e-9))).verdict(), Verdict::Thin);
        assert_eq!(ask(&crate::example("ostrick")).verdict(), Verdict::DoesNotArise);
        let mut nameless = fit(0.5 * left);
        nameless.well.sections[2].string[3].yield_strength = None;
        assert_eq!(ask(&nameless).verdict(), Verdict::Unknown);
    }
}
