//! The tongs: do they reach the torque that the connections of string and casing are made up to.

use super::load::rated;
use crate::geometry::Pipe;
use crate::rotating::{is_pipe, make_up};
use crate::{Answer, Judged, Place, Scene, worst};
use rigwright_physics::{Kind, Recorder};

const SHEET: &str = "torque that the rig file gives for the tongs";

pub(super) fn tongs<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let (tongs, share) = (&fit.rig.tongs, fit.well.reserves.machinery);
    let (mut judgements, mut missing) = (Vec::new(), Vec::new());
    for piece in scene.string() {
        let Pipe::Part(part) = piece.pipe else { continue };
        rec.stretch(|| part.name.clone(), piece.top, piece.bottom);
        let Some(demand) = make_up(part, rec) else {
            // Connections of collars and tools are asked where the crew gives them.
            if is_pipe(part) {
                missing.push("section[].string[].make_up");
            }
            continue;
        };
        match tongs.torque {
            None => missing.push("rig.tongs.torque"),
            Some(capacity) => {
                let limit = rated(capacity, share, "tongs on the string", SHEET);
                judgements.push(Judged { demand, limit, place: Place::Depth(piece.top), zero: 0.0 });
            }
        }
    }
    if let Some(capacity) = tongs.torque {
        rec.given("greatest torque of the tongs on the string", capacity, Kind::Torque);
    }
    if let Some(casing) = &*scene.section().casing {
        match (casing.make_up_torque, tongs.casing_torque) {
            (Some(demand), Some(capacity)) => {
                rec.stretch(|| casing.name.clone(), casing.top, casing.shoe);
                rec.given("make-up torque of the casing", demand, Kind::Torque);
                rec.given("greatest torque of the tong for casing", capacity, Kind::Torque);
                let limit = rated(capacity, share, "tong for casing", SHEET);
                judgements.push(Judged { demand, limit, place: Place::Surface, zero: 0.0 });
            }
            // Who gives one of them owes the other.
            (Some(_), None) => missing.push("rig.tongs.casing_torque"),
            (None, Some(_)) => missing.push("section[].casing.make_up"),
            (None, None) => {}
        }
    }
    missing.sort_unstable();
    missing.dedup();
    match worst(judgements) {
        // What nobody knows may be the harder one, unless a known one is passed already.
        Some(judged) if missing.is_empty() || judged.room() < 0.0 => Answer::Judged(judged),
        None if missing.is_empty() => Answer::DoesNotArise("nothing of known make-up torque is screwed together"),
        _ => Answer::Missing(missing),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Basis, Verdict, sweep};
    use rigwright_physics::{Off, Working};
    use rigwright_well::Fit;

    fn ask(fit: &Fit) -> Answer {
        let basis = Basis::new(fit);
        tongs(&Scene::new(&basis, sweep::section_end(fit, 2)), &mut Off)
    }

    /// The largest make-up torque of the string is what the tongs must reach: the verdict flips there.
    #[test]
    fn law_tongs_flip_at_the_hardest_connection() {
        let mut fit = crate::example("ostrick");
        fit.rig.tongs.torque = Some(1e6);
        let judged = *ask(&fit).judged().unwrap();
        let hardest = fit.well.sections[2].string.iter().filter_map(|part| make_up(part, &mut Off)).fold(0.0, f64::max);
        let casing = fit.well.sections[2].casing.as_ref().and_then(|casing| casing.make_up_torque).unwrap();
        fit.rig.tongs.casing_torque = Some(1e6);
        assert!((ask(&fit).judged().unwrap().demand - hardest.max(casing)).abs() < 1e-6, "{judged:?}");
        fit.rig.tongs.torque = Some(hardest.next_down());
        assert_eq!(ask(&fit).verdict(), Verdict::Short);
        assert_eq!(ask(&fit).judged().unwrap().limit.name, "tongs on the string");
        fit.rig.tongs.torque = Some(hardest);
        assert_eq!(ask(&fit).verdict(), Verdict::Thin);
        // So it is for the casing, whose tong is another.
        *fit.rig.tongs = rigwright_well::Tongs { torque: Some(1e6), casing_torque: Some(casing.next_down()) };
        assert_eq!(ask(&fit).judged().unwrap().limit.name, "tong for casing");
        let basis = Basis::new(&fit);
        let scene = Scene::new(&basis, sweep::section_end(&fit, 2));
        assert_eq!(tongs(&scene, &mut Working::default()), ask(&fit));
    }

    /// Who gives the tong for casing owes the torque of the casing, and the other way round; neither is no question.
    #[test]
    fn law_what_is_half_given_is_unknown() {
        let mut fit = crate::example("ostrick");
        fit.well.sections[2].casing.as_mut().unwrap().make_up_torque = None;
        *fit.rig.tongs = rigwright_well::Tongs { torque: Some(1e6), casing_torque: Some(1e6) };
        assert_eq!(ask(&fit), Answer::Missing(vec!["section[].casing.make_up"]));
        fit.rig.tongs.casing_torque = None;
        assert_eq!(ask(&fit).verdict(), Verdict::Holds);
        fit.well.sections[2].casing.as_mut().unwrap().make_up_torque = Some(2e4);
        assert_eq!(ask(&fit), Answer::Missing(vec!["rig.tongs.casing_torque"]));
        *fit.rig.tongs = rigwright_well::Tongs { torque: None, casing_torque: Some(1e6) };
        assert_eq!(ask(&fit), Answer::Missing(vec!["rig.tongs.torque"]));
    }
}
