//! How much pressure may stand on the casing with mud all the way, each bound by its name, still and while pumping.

use crate::control::ratings::{at_surface, burst_limits};
use crate::fields::influx::maasp;
use crate::kill_sheet::Constants;
use crate::kill_sheet::schedule::annular_friction;
use crate::{Place, Scene};
use rigwright_physics::control::limits::MaaspFlowing;
use rigwright_physics::{Kind, Off, Recorder};

/// Something that bounds the casing pressure.
#[derive(Clone, Debug, PartialEq)]
pub struct Bound {
    /// What it is.
    pub name: String,
    /// Where it bites.
    pub place: Place,
    /// Whether it is of the open hole, whose hold ends when gas is above it.
    pub open_hole: bool,
    /// Largest casing pressure with the well still; `None` when nobody knows. [Pa]
    pub still: Option<f64>,
    /// The same at the choke while pumping at the slow rate; `None` without a slow rate or readings of the mud. [Pa]
    pub pumping: Option<f64>,
    /// Where that comes from, or which entry is wanting.
    pub source: &'static str,
}

/// What is pumped when friction is told.
#[derive(Clone, Copy, Debug)]
pub(super) struct Pumped {
    /// Flow rate. [m³/s]
    pub(super) rate: f64,
    /// Loss in the choke line from the sea bed; nought with preventers at surface. [Pa]
    pub(super) choke_line_loss: f64,
}

/// Every bound of a scene that is shut in below the shoe.
pub(super) fn bounds<R: Recorder>(
    scene: &Scene,
    shoe: f64,
    pumped: Option<Pumped>,
    constants: &Constants,
    rec: &mut R,
) -> Vec<Bound> {
    let fit = scene.fit();
    let mut bounds = Vec::new();
    let pumping = |still: f64, depth: f64, rec: &mut R| {
        let Pumped { rate, choke_line_loss } = pumped?;
        let annular_loss = annular_friction(scene, rate, depth)?;
        Some(rec.take(MaaspFlowing { maasp: still, annular_loss, choke_line_loss }))
    };

    rec.heading("what the shoe and the open hole allow, mud all the way");
    let test = fit.well.casing_above(scene.situation.section).and_then(|casing| casing.leak_off);
    let name = match test {
        Some(test) if test.integrity_only => "shoe, by integrity test (FIT)",
        Some(test) if !test.measured => "shoe, by planned leak-off",
        _ => "shoe, by leak-off test",
    };
    let (mud_weight, gravity) = (scene.section().mud.weight, constants.gravity);
    let points = scene.prepared_flow().open_hole.above(scene.situation.hole_depth);
    let still = points.iter().find(|point| point.tested).and_then(|point| maasp(scene, point, gravity, rec));
    bounds.push(Bound {
        name: name.to_owned(),
        place: Place::Depth(shoe),
        open_hole: true,
        still,
        pumping: still.and_then(|still| pumping(still, shoe, rec)),
        source: if test.is_some() { "well file" } else { "section[].casing.leak_off" },
    });

    let rock = points.iter().filter(|point| !point.tested);
    let known = rock.clone().filter_map(|point| Some((point, maasp(scene, point, gravity, &mut Off)?)));
    if let Some((point, still)) = known.min_by(|a, b| a.1.total_cmp(&b.1)) {
        maasp(scene, point, gravity, rec);
        bounds.push(Bound {
            name: "weakest depth of open hole".to_owned(),
            place: Place::Depth(point.depth),
            open_hole: true,
            still: Some(still),
            pumping: pumping(still, point.depth, rec),
            source: "formations",
        });
    }
    if rock.clone().any(|point| point.fracture.is_none()) {
        bounds.push(Bound {
            name: "open hole of unknown strength".to_owned(),
            place: Place::Depth(scene.situation.hole_depth),
            open_hole: true,
            still: None,
            pumping: None,
            source: "formation[].fracture",
        });
    }

    rec.heading("what the casing bears, with mud inside and water behind");
    match burst_limits(scene, mud_weight, rec) {
        Err(entry) => bounds.push(Bound {
            name: "casing, its share of burst".to_owned(),
            place: Place::Surface,
            open_hole: false,
            still: None,
            pumping: None,
            source: entry,
        }),
        Ok(limits) => {
            let least = limits.into_iter().min_by(|a, b| a.0.capacity.total_cmp(&b.0.capacity));
            if let Some((limit, depth)) = least {
                bounds.push(Bound {
                    name: "casing, its share of burst".to_owned(),
                    place: if depth > 0.0 { Place::Depth(depth) } else { Place::Surface },
                    open_hole: false,
                    still: Some(limit.capacity),
                    pumping: pumping(limit.capacity, depth, rec),
                    source: "API 5C3",
                });
            }
        }
    }

    rec.heading("ratings, as pressures at surface");
    for rated in at_surface(scene, rec) {
        if let Some(rating) = rated.rating {
            rec.given("working pressure", rating, Kind::Pressure);
        }
        let source = if rated.rating.is_some() { "nameplate" } else { rated.entry };
        // At surface friction adds nothing; on the sea bed that of the choke line does.
        let still = rated.rating;
        let pumping = match (rated.on_bed, pumped) {
            (false, _) => still,
            (true, Some(pumped)) => still.map(|still| still - pumped.choke_line_loss),
            (true, None) => None,
        };
        bounds.push(Bound { name: rated.name, place: Place::Surface, open_hole: false, still, pumping, source });
    }
    bounds
}
