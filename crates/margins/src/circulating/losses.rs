//! Total losses: how far the mud level may fall before a layer flows, and where it would come to stand.

use crate::fields::open_hole::Point;
use crate::{Answer, Figure, Scene};
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::circulating::passage::AnnularCapacity;
use rigwright_physics::{Off, Recorder};
use rigwright_units::Kind;

/// Strengths as mud weights that lie closer than this are one: a layer may be as strong at every depth, to the last digits. [-]
const AS_WEAK: f64 = 1e-9;

/// How far the level may fall.
pub(super) fn total_losses<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.fit().open_to_sea(scene.situation.section).is_some() {
        return super::TO_SEA;
    }
    let still = scene.basis.fit.well.sections[scene.situation.section].bottom;
    let situation =
        crate::sweep::situation(scene.fit(), scene.situation.section, rigwright_well::Operation::Connection, still, still);
    let still = Scene::new(scene.basis, situation);
    let flow = still.flow(&mut Off);
    let Some(top) = flow.pieces.first().map(|piece| piece.vertical_top) else {
        return Answer::Missing(vec!["section[].mud.readings"]);
    };
    let (density, gravity) = (scene.section().mud.weight, scene.gravity());
    let points = scene.prepared_flow().open_hole.points();
    // Mud above the level is gone: each metre takes its weight off every depth below.
    let fall = |point: &Point| (flow.pressure_at(point.depth, point.vertical_depth) - point.pore) / (density * gravity);
    let Some(first) = points.iter().min_by(|a, b| fall(a).total_cmp(&fall(b))) else {
        return Answer::DoesNotArise("no open hole");
    };
    rec.heading("the depth that flows first");
    rec.given("measured depth", first.depth, Kind::Depth);
    rec.given("its pore pressure", first.pore, Kind::Pressure);
    rec.given("pressure of still mud there, hole full", flow.pressure_at(first.depth, first.vertical_depth), Kind::Pressure);
    let height = fall(first).max(0.0);
    rec.given("height of mud that weighs as much as the difference", height, Kind::Depth);
    rec.take(Hydrostatic { density, vertical_depth: height, gravity });
    let level = scene.fit().well.path.measured_depth_at(top + height).unwrap_or(scene.section().bottom);
    rec.heading("mud lost until then, from the annulus alone");
    let mut volume = 0.0;
    for annulus in scene.annuli().iter().rev().filter(|annulus| annulus.top < level) {
        let bottom = annulus.bottom.min(level);
        rec.stretch(|| "annulus".to_owned(), annulus.top, bottom);
        let (hole_diameter, pipe_diameter) = (annulus.hole_diameter, annulus.pipe_diameter);
        let capacity = rec.take(AnnularCapacity { hole_diameter, pipe_diameter });
        volume += capacity * (bottom - annulus.top);
        rec.given("volume of the piece", capacity * (bottom - annulus.top), Kind::Volume);
    }
    let figure = |name, value, kind| Figure { name, value, kind };
    let mut figures = vec![
        figure("level may fall by", height, Kind::Depth),
        figure("mud lost from the annulus until then", volume, Kind::Volume),
        figure("depth that flows first", first.depth, Kind::Depth),
    ];
    // The weakest rock, as a mud weight, is where all mud may go; of rock that is as weak, where it falls furthest.
    let strength = |point: &&Point| Some(super::window::weight(scene, point.fracture?, point));
    let least = points.iter().filter_map(|point| strength(&point)).fold(f64::INFINITY, f64::min);
    let as_weak = points.iter().filter(|point| strength(point).is_some_and(|strength| strength <= least * (1.0 + AS_WEAK)));
    if let Some(weakest) = as_weak.max_by(|a, b| fall(a).total_cmp(&fall(b))) {
        rec.heading("where the level would stand");
        rec.given("weakest depth", weakest.depth, Kind::Depth);
        rec.given("its pore pressure", weakest.pore, Kind::Pressure);
        rec.note(|| {
            "An open fracture holds mud back by its pore pressure alone: the level stands where the column balances it."
                .to_owned()
        });
        let stands = fall(weakest).max(0.0);
        rec.take(Hydrostatic { density, vertical_depth: weakest.vertical_depth - top - stands, gravity });
        figures.push(figure("level stands this deep if the weakest depth takes all mud", stands, Kind::Depth));
        figures.push(figure("weakest depth", weakest.depth, Kind::Depth));
        if stands > height {
            let short = Hydrostatic { density, vertical_depth: stands - height, gravity };
            rec.heading("what is then lacking at the depth that flows first");
            figures.push(figure("pressure then lacking at the depth that flows first", rec.take(short), Kind::Pressure));
        }
    }
    Answer::Told(figures)
}
