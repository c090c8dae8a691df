//! Hole cleaning: the flow against the smallest that cleans every annulus at its inclination.

use crate::fields::cleaning::velocity;
use crate::fields::flow::{passage, rheology};
use crate::geometry::Annulus;
use crate::{Answer, Judged, Limit, Place, Scene};
use rigwright_physics::circulating::passage::AnnularCapacity;
use rigwright_physics::{Kind, Recorder};
use rigwright_well::Operation;

/// Where the most flow is wanted.
struct Wanted {
    flow_rate: f64,
    depth: f64,
    inclination: f64,
    annulus: Annulus,
}

/// The flow carries the cuttings.
pub(super) fn cleaning<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if scene.situation.operation != Operation::Drilling {
        return Answer::DoesNotArise("no rock is drilled");
    }
    let section = scene.section();
    let prepared = scene.prepared_flow();
    let Some(mud) = &prepared.mud else { return Answer::Missing(vec!["section[].mud.readings"]) };
    let path = &scene.fit().well.path;
    let mut worst: Option<Wanted> = None;
    for annulus in scene.annuli() {
        // The bit's own length is left out: its slots are no annulus. So is the rat hole of the section above: cuttings
        // settle in its few metres of wider hole whatever the flow.
        let rat_hole = !annulus.cased && annulus.bottom <= section.top + 1e-6;
        if annulus.bottom > scene.situation.bit_depth + 1e-6 || annulus.pipe_diameter <= 0.0 || rat_hole {
            continue;
        }
        let area = passage(annulus).area();
        let within = path.stations().iter().map(|station| station.depth);
        let depths = within.filter(|depth| *depth > annulus.top && *depth < annulus.bottom);
        for depth in depths.chain([annulus.top, annulus.bottom]) {
            let Some(depth) = scene.look(annulus.top..=annulus.bottom, depth) else { continue };
            let inclination = path.inclination_at(depth);
            // Where no velocity does, no flow does either.
            let speed = prepared.cleaning.velocity(section, mud, annulus, inclination).unwrap_or(f64::MAX.sqrt());
            let flow_rate = speed * area;
            if worst.as_ref().is_none_or(|kept| flow_rate > kept.flow_rate) {
                worst = Some(Wanted { flow_rate, depth, inclination, annulus: *annulus });
            }
        }
    }
    let Some(wanted) = worst else { return Answer::DoesNotArise("no annulus") };
    if R::ON {
        show(scene, &wanted, rec);
    }
    let capacity = scene.situation.flow_rate;
    let reserve = scene.fit().well.reserves.volume * capacity;
    let limit = Limit { capacity, reserve, name: "flow rate", source: "drilling parameters of the well file" };
    Answer::Judged(Judged { demand: wanted.flow_rate, limit, place: Place::Depth(wanted.depth), zero: 0.0 })
}

fn show<R: Recorder>(scene: &Scene, wanted: &Wanted, rec: &mut R) {
    let Annulus { hole_diameter, pipe_diameter, .. } = wanted.annulus;
    let Some(mud) = rheology(scene.section(), rec) else { return };
    rec.heading("annulus that wants the most flow");
    rec.stretch(|| "annulus".to_owned(), wanted.annulus.top, wanted.annulus.bottom);
    rec.given("inclination there", wanted.inclination, Kind::Angle);
    let speed = velocity(scene.section(), &mud, (hole_diameter, pipe_diameter), wanted.inclination, rec);
    let area = rec.take(AnnularCapacity { hole_diameter, pipe_diameter });
    match speed {
        Some(speed) => {
            rec.given("velocity that cleans", speed, Kind::Speed);
            rec.given("times the area: flow that cleans", speed * area, Kind::FlowRate);
        }
        None => rec.note(|| "No velocity cleans this annulus.".to_owned()),
    }
}
