//! Which rams close on the pipe that stands across the stack.

use crate::geometry::Pipe;
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::{Kind, Recorder};
use rigwright_well::{PartKind, PreventerKind};

/// Diameters this close are one: far below the step of any ram. [m]
const SAME: f64 = 1e-5;

pub(super) fn closes_on<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if !super::can_shut_in(scene) {
        return super::DIVERTED;
    }
    if fit.rig.stack.is_empty() {
        return Answer::Missing(vec!["rig.preventer[]"]);
    }
    let rams = || fit.rig.stack.iter().filter(|preventer| preventer.kind == PreventerKind::PipeRam);
    if rams().any(|ram| ram.closes_on.is_none()) {
        return Answer::Missing(vec!["rig.preventer[].closes_on"]);
    }
    let mut judgements = Vec::new();
    for piece in scene.string() {
        let Pipe::Part(part) = piece.pipe else { continue };
        if !matches!(part.kind, PartKind::DrillPipe | PartKind::HeavyWeight) {
            continue;
        }
        let diameter = part.outer_diameter;
        rec.stretch(|| part.name.clone(), piece.top, piece.bottom);
        rec.given("outside diameter of the body", diameter, Kind::Diameter);
        let mut closing = 0.0;
        for ram in rams() {
            let Some([smallest, largest]) = ram.closes_on else { continue };
            if (smallest - SAME..=largest + SAME).contains(&diameter) {
                rec.note(|| format!("{} close on it", ram.name));
                closing += 1.0;
            }
        }
        let limit = Limit {
            capacity: closing,
            reserve: 1.0,
            name: "rams that close on the pipe",
            source: "rams of the rig file; a second set for the main pipe is common practice",
        };
        judgements.push(Judged { demand: 1.0, limit, place: Place::Surface, zero: 0.0 });
    }
    worst(judgements).map_or(Answer::DoesNotArise("no drill pipe or heavy-weight pipe in the string"), Answer::Judged)
}
