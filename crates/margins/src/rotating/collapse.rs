//! Drill pipe that is run empty inside, on a float: the mud around it against its collapse strength.

use super::body::{SAME, is_pipe, worn_diameter};
use crate::fields::drag::Drag;
use crate::geometry::Pipe;
use crate::{Answer, Figure, Judged, Limit, Place, Scene, sweep};
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::rotating::CollapseOnEllipse;
use rigwright_physics::tubular::{PipeBody, SteelArea, WallThickness};
use rigwright_physics::{Formula, Kind, Off, Recorder, numerics};
use rigwright_well::{Operation, Part};

/// Empty pipe at one depth.
struct Empty<'a> {
    part: &'a Part,
    depth: f64,
    tension: f64,
}

pub(super) fn pipe_collapse<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let (section, bottom) = (scene.situation.section, scene.section().bottom);
    let still = Scene::new(scene.basis, sweep::situation(fit, section, Operation::Connection, bottom, bottom));
    let drag = still.drag(rec);
    match scene.section().tripping.run_empty {
        Some(length) => judge(&still, drag, length.min(bottom), rec),
        None => tell(&still, drag, rec),
    }
}

/// What the wanted empty length asks of the pipe.
fn judge<R: Recorder>(scene: &Scene, drag: &Drag, length: f64, rec: &mut R) -> Answer {
    let Some((governing, judged)) = governing(scene, drag, length) else {
        return match known(scene) {
            true => Answer::DoesNotArise("no drill pipe stands empty"),
            false => Answer::Missing(vec!["section[].string[].grade"]),
        };
    };
    rec.heading("empty pipe against the mud around it");
    rec.given("length from surface down that stands empty inside", length, Kind::Depth);
    show(scene, &governing, rec);
    if known(scene) || judged.room() < 0.0 { Answer::Judged(judged) } else { Answer::Missing(vec!["section[].string[].grade"]) }
}

/// How much may stand empty: nobody said how much is wanted.
fn tell<R: Recorder>(scene: &Scene, drag: &Drag, rec: &mut R) -> Answer {
    if !known(scene) {
        return Answer::Missing(vec!["section[].string[].grade"]);
    }
    let bottom = scene.situation.bit_depth;
    let room = |length: f64| governing(scene, drag, length).map_or(f64::MAX, |(_, judged)| judged.room() - 1.0);
    let length = if room(bottom) >= 0.0 { bottom } else { numerics::root(room, SAME, bottom).unwrap_or(0.0) };
    rec.heading("the length from surface down that may stand empty, the wanted reserve kept");
    rec.given("length that may stand empty", length, Kind::Depth);
    if let Some((governing, _)) = governing(scene, drag, length) {
        show(scene, &governing, rec);
    }
    Answer::Told(vec![Figure { name: "may stand empty", value: length, kind: Kind::Depth }])
}

/// Whether the strength of every run of pipe is known.
fn known(scene: &Scene) -> bool {
    let pipe = |part: &&Part| is_pipe(part);
    scene.section().string.iter().filter(pipe).all(|part| part.yield_strength.is_some())
}

/// The empty place with the least room: at the level inside, or at the lower end of a part above it. Further up in a part
/// the mud presses less, by more than tension takes off the strength (tested below).
fn governing<'a>(scene: &'a Scene, drag: &Drag, length: f64) -> Option<(Empty<'a>, Judged)> {
    let mut worst: Option<(Empty, Judged)> = None;
    for piece in scene.string() {
        let Pipe::Part(part) = piece.pipe else { continue };
        if !is_pipe(part) || piece.top >= length {
            continue;
        }
        let depth = piece.bottom.min(length);
        let empty = Empty { part, depth, tension: drag.at(depth).0 };
        let Some(judged) = judged(scene, &empty, &mut Off) else { continue };
        if worst.as_ref().is_none_or(|(_, most)| judged.room() < most.room()) {
            worst = Some((empty, judged));
        }
    }
    worst
}

fn judged<R: Recorder>(scene: &Scene, empty: &Empty, rec: &mut R) -> Option<Judged> {
    let Empty { part, depth, tension } = *empty;
    let yield_strength = part.yield_strength?;
    let (outer_diameter, inner_diameter) = (worn_diameter(part, rec), part.inner_diameter);
    let wall = rec.take(WallThickness { outer_diameter, inner_diameter });
    let steel_area = rec.take(SteelArea { outer_diameter, inner_diameter });
    let axial_stress = (tension / steel_area).max(0.0);
    rec.given("stress of the tension over the area", axial_stress, Kind::Stress);
    let body = PipeBody { yield_strength, outer_diameter, wall };
    let capacity = body.collapse_strength_under_tension(axial_stress, rec);
    let (density, vertical_depth) = (scene.section().mud.weight, scene.vertical_depth(depth));
    let demand = rec.take(Hydrostatic { density, vertical_depth, gravity: scene.gravity() });
    let limit = Limit {
        capacity,
        reserve: (scene.fit().well.reserves.pressure * capacity).max(1.0),
        name: "collapse of the pipe under its tension",
        source: "API Bulletin 5C3, 6th ed. 1994, from dimensions, grade and class",
    };
    Some(Judged { demand, limit, place: Place::Depth(depth), zero: 0.0 })
}

fn show<R: Recorder>(scene: &Scene, empty: &Empty, rec: &mut R) {
    if !R::ON {
        return;
    }
    rec.stretch(|| empty.part.name.clone(), empty.depth, empty.depth);
    rec.given("effective tension there, string hung still and full", empty.tension, Kind::Force);
    judged(scene, empty, rec);
    rec.heading("beside it, as textbooks have it: the strength without tension shrunk like the yield strength");
    let Some(yield_strength) = empty.part.yield_strength else { return };
    let (outer_diameter, inner_diameter) = (worn_diameter(empty.part, &mut Off), empty.part.inner_diameter);
    let body = PipeBody { yield_strength, outer_diameter, wall: 0.5 * (outer_diameter - inner_diameter) };
    let collapse_strength = body.collapse_strength(rec);
    let axial_stress = (empty.tension / SteelArea { outer_diameter, inner_diameter }.value()).max(0.0);
    rec.take(CollapseOnEllipse { collapse_strength, axial_stress, yield_strength });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Verdict};
    use rigwright_physics::{Line, Working};
    use rigwright_well::Fit;

    const PSI: f64 = 0.453_592_37 * rigwright_physics::STANDARD_GRAVITY / (0.0254 * 0.0254);

    fn ask(fit: &Fit) -> Answer {
        let basis = Basis::new(fit);
        pipe_collapse(&Scene::new(&basis, sweep::section_end(fit, 2)), &mut Off)
    }

    fn with(empty: f64) -> Fit {
        let mut fit = crate::example("ostrick");
        fit.well.sections[2].tripping.run_empty = Some(empty);
        fit
    }

    /// The mud at the level inside: 11.5 ppg over 3,000 ft is 11.5 x 12/231 x 3000 = 1,792 psi. Without tension 5 in 19.50
    /// S-135 premium bears 10,029 psi (Workstrings International, Drill Pipe Performance Characteristics, 2011).
    #[test]
    fn published_workstrings_collapse_of_premium_pipe() {
        let fit = with(3000.0 * 0.3048);
        let judged = *ask(&fit).judged().unwrap();
        assert!((judged.demand / PSI - 1_792.2).abs() < 0.5, "{}", judged.demand / PSI);
        assert!((judged.place.depth().unwrap() - 914.4).abs() < 1e-9);
        let basis = Basis::new(&fit);
        let mut working = Working::default();
        pipe_collapse(&Scene::new(&basis, sweep::section_end(&fit, 2)), &mut working);
        let free = working.lines.iter().find_map(|line| match line {
            Line::Step { record, inputs, .. } if record.slug == "collapse-on-ellipse" => Some(inputs[0]),
            _ => None,
        });
        assert!((free.unwrap() / PSI - 10_029.0).abs() <= 0.5);
        assert!(judged.limit.capacity < free.unwrap(), "tension takes some of it");
    }

    /// The length that is told keeps just the wanted reserve when it is asked for.
    #[test]
    fn law_told_and_judged_agree() {
        let mut fit = with(0.0);
        fit.well.sections[2].tripping.run_empty = None;
        // Mud so heavy that the pipe cannot be run empty to bottom.
        fit.well.sections[2].mud.weight = 2_600.0;
        let Answer::Told(figures) = ask(&fit) else { panic!("told") };
        let length = figures[0].value;
        assert!(length > 100.0 && length < fit.well.sections[2].bottom);
        for (share, verdict) in [(1.0 - 1e-6, Verdict::Holds), (1.0 + 1e-6, Verdict::Thin)] {
            fit.well.sections[2].tripping.run_empty = Some(length * share);
            assert_eq!(ask(&fit).verdict(), verdict);
        }
    }

    #[test]
    fn law_no_place_further_up_is_worse() {
        for weight in [1_000.0, 1_400.0, 2_400.0] {
            let mut fit = with(3300.0);
            fit.well.sections[2].mud.weight = weight;
            let found = *ask(&fit).judged().unwrap();
            for step in 1..=66 {
                fit.well.sections[2].tripping.run_empty = Some(50.0 * f64::from(step));
                assert!(ask(&fit).judged().is_none_or(|judged| judged.room() >= found.room() - 1e-9), "{step}");
            }
        }
    }

    #[test]
    fn law_an_unknown_grade_is_unknown() {
        let mut fit = with(900.0);
        if let Some(pipe) = fit.well.sections[2].string.last_mut() {
            pipe.yield_strength = None;
        }
        assert_eq!(ask(&fit), Answer::Missing(vec!["section[].string[].grade"]));
    }

    #[test]
    fn law_the_working_gives_the_same_answer() {
        let fit = with(900.0);
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
        let mut working = Working::default();
        assert_eq!(pipe_collapse(&scene, &mut working), pipe_collapse(&scene, &mut Off));
        assert!(working.lines.len() > 10);
    }
}
