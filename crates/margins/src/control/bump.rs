//! The plug at the end of the cement job: what the slurry pushes back with, and the pressure at which the plug is bumped.

use super::{NO_PVT, OWN_MUD};
use crate::question::{Question, Scope};
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::{Kind, Off, Recorder, Working};

pub(super) const QUESTIONS: &[Question] = &[Question {
    slug: "control/plug-bump",
    asks: "Is the plug bumped above what the slurry behind the casing pushes back with?",
    title: "lift before plug bump",
    kind: Kind::Pressure,
    scope: Scope::Section,
    knobs: &[],
    assumes: &[
        OWN_MUD,
        "still, mud of the section above the cement and inside; friction comes on top while pumping. It is what the floats hold once pressure is bled off",
        NO_PVT,
    ],
    ask: bump::<Off>,
    show: bump::<Working>,
}];

fn bump<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let Some(casing) = &*scene.section().casing else {
        return Answer::DoesNotArise("the section stays open: no casing ends it");
    };
    if fit.open_to_sea(scene.situation.section).is_some() {
        return Answer::DoesNotArise("no riser: cement comes up to the sea bed, with the sea above it");
    }
    let (Some(top), Some(slurry), Some(capacity)) = (casing.cement_top, casing.cement_weight, casing.bump_pressure) else {
        let given = [
            (casing.cement_top.is_some(), "section[].casing.cement_top"),
            (casing.cement_weight.is_some(), "section[].casing.cement_weight"),
            (casing.bump_pressure.is_some(), "section[].casing.bump_pressure"),
        ];
        return Answer::Missing(given.into_iter().filter(|(given, _)| !given).map(|(_, entry)| entry).collect());
    };
    let height = scene.vertical_depth(casing.shoe) - scene.vertical_depth(top);
    let column = |density| Hydrostatic { density, vertical_depth: height, gravity: scene.gravity() };
    rec.heading("over the height of the cement: slurry outside, mud inside");
    rec.given("vertical height of the cement", height, Kind::Depth);
    let outside = rec.take(column(slurry));
    let demand = outside - rec.take(column(scene.section().mud.weight));
    rec.given("what the slurry pushes back with", demand, Kind::Pressure);
    let reserve = fit.well.reserves.pressure * capacity;
    let limit = Limit { capacity, reserve, name: "pressure at plug bump", source: "well file" };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}
