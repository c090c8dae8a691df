//! How hot the mud gets while it circulates, and what it weighs down there.

use crate::fields::flow::Flow;
use crate::fields::heat::Heat;
use crate::fields::open_hole::{Point, point};
use crate::{Answer, Figure, Judged, Limit, Place, Scene, geometry, sweep};
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::Operation;

/// The hottest mud against what mud and tools bear.
pub(super) fn temperature<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let Some(heat) = Heat::new(scene) else { return Answer::Missing(vec!["section[].mud.readings"]) };
    if let Some(entry) = heat.missing() {
        return Answer::Missing(vec![entry]);
    }
    let bottom = scene.section().bottom;
    let Some(circulation) = heat.circulation(bottom, rec) else {
        return Answer::DoesNotArise("no pipe in the hole");
    };
    rec.heading("temperatures");
    let depths: Vec<f64> = (0..=16).map(|at| bottom * f64::from(at) / 16.0).collect();
    let rows = circulation.profile(&depths, rec);
    let hottest = circulation.hottest(rec);
    let (Some(top), Some(end)) = (rows.first(), rows.last()) else { return Answer::DoesNotArise("no pipe in the hole") };
    if R::ON {
        heat.show_march(&circulation, rec);
    }
    let well = &scene.fit().well;
    // Counted from the ground: a share of an absolute temperature says nothing.
    let zero = well.geotherm.surface;
    let judge = |capacity: f64, demand: f64, depth: f64, (name, source)| {
        let reserve = (well.reserves.strength * (capacity - zero)).max(1.0);
        Judged { demand, limit: Limit { capacity, reserve, name, source }, place: Place::Depth(depth), zero }
    };
    let mud = scene
        .section()
        .mud
        .temperature_limit
        .map(|capacity| judge(capacity, hottest.annulus, hottest.depth, ("temperature that the mud bears", "the well file")));
    let tools = scene.string().iter().filter_map(|piece| {
        let geometry::Pipe::Part(part) = piece.pipe else { return None };
        let capacity = part.temperature_limit?;
        let beside = circulation.profile(&[piece.bottom], &mut Off).first()?.annulus;
        Some(judge(capacity, beside, piece.bottom, ("temperature that the tool bears", "its maker's sheet")))
    });
    if let Some(judged) = crate::worst(mud.into_iter().chain(tools)) {
        rec.given(judged.limit.name, judged.limit.capacity, Kind::Temperature);
        return Answer::Judged(judged);
    }
    let figure = |name, value, kind| Figure { name, value, kind };
    let start = well.elevation + well.water_depth;
    Answer::Told(vec![
        figure("hottest mud, in the annulus", hottest.annulus, Kind::Temperature),
        figure("depth of the hottest mud", hottest.depth, Kind::Depth),
        figure("at the bit", end.annulus, Kind::Temperature),
        figure("at the flow line", top.annulus, Kind::Temperature),
        figure("rock at the bottom, undisturbed", well.geotherm.at(scene.vertical_depth(bottom), start), Kind::Temperature),
    ])
}

/// What the mud weighs at shoe and bottom.
pub(super) fn equivalent_density<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let (section, bottom) = (scene.situation.section, scene.section().bottom);
    let there = |operation| Scene::new(scene.basis, sweep::situation(scene.fit(), section, operation, bottom, bottom));
    let (still, drilling) = (there(Operation::Connection), there(Operation::Drilling));
    if still.flow(&mut Off).pieces.is_empty() {
        return Answer::Missing(vec!["section[].mud.readings"]);
    }
    let mut figures = Vec::with_capacity(5);
    let shoe = point(scene.fit(), geometry::open_from(scene.fit(), section));
    let end = point(scene.fit(), bottom);
    let mut tell = |scene: &Scene, at: &Option<Point>, name| {
        let Some(at) = at else { return };
        let flow: &Flow = scene.flow(&mut Off);
        figures.push(Figure { name, value: super::window::mud_weight(scene, flow, at), kind: Kind::Density });
    };
    tell(&drilling, &end, "at the bottom, drilling");
    tell(&still, &end, "at the bottom, pumps off");
    tell(&drilling, &shoe, "at the shoe, drilling");
    tell(&still, &shoe, "at the shoe, pumps off");
    figures.push(Figure { name: "at surface", value: scene.section().mud.weight, kind: Kind::Density });
    if R::ON {
        for scene in [&still, &drilling] {
            let Some(at) = &end else { continue };
            rec.note(|| format!("while {}", scene.situation.operation.name()));
            let flow = scene.flow(&mut Off);
            super::window::show(scene, flow, at, rec);
        }
    }
    Answer::Told(figures)
}
