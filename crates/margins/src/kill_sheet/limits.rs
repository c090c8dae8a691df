//! What the well and the rig bear, each by its name, with what both methods ask of it. What nobody gave is unknown, never
//! without end.

use super::course::{Course, Instants, WeakPoint};
use super::schedule::annular_friction;
use super::{Ground, Remark, Slow};
use crate::control::ratings::{at_surface, burst_limits};
use crate::fields::influx::squeezed;
use crate::{Place, Scene};
use rigwright_physics::{Kind, Recorder};

/// A limit and what is asked of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// What it is.
    pub name: String,
    /// Where it bites.
    pub place: Place,
    /// What it bears; `None` when nobody knows. [Pa]
    pub capacity: Option<f64>,
    /// Where that comes from, or which entry is wanting.
    pub source: &'static str,
    /// Pressure there when shut in; for the pump side the initial circulating pressure. [Pa]
    pub shut_in: Option<f64>,
    /// Highest by driller's method. [Pa]
    pub driller: Option<f64>,
    /// Highest by wait and weight. [Pa]
    pub weighted: Option<f64>,
}

impl Held {
    /// The most that is asked of it. [Pa]
    pub fn most(&self) -> Option<f64> {
        [self.shut_in, self.driller, self.weighted].into_iter().flatten().reduce(f64::max)
    }

    /// What is left; below nought it is passed. [Pa]
    pub fn left(&self) -> Option<f64> {
        Some(self.capacity? - self.most()?)
    }
}

/// When the shoe or the weak point ceases to govern, by driller's method.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swap {
    /// Volume pumped when all of the gas is above it. [m³]
    pub pumped: f64,
    /// MAASP by the shoe test while mud alone stands above it, still. [Pa]
    pub maasp: Option<f64>,
    /// The least that equipment and casing bear at surface, which governs from then on. [Pa]
    pub surface: Option<f64>,
    /// Friction from the shoe to the choke at the slow rate, the choke line from the sea bed in it: MAASP is less by that while
    /// pumping. [Pa]
    pub friction: Option<f64>,
}

/// Every limit, and when the governing one changes; with the slow rate and the initial circulating pressure at it.
pub(super) fn limits<R: Recorder>(
    ground: Ground,
    (slow, initial_pressure): (Option<&Slow>, Option<f64>),
    courses: [Option<&Course>; 2],
    weakest: Option<&WeakPoint>,
    rec: &mut R,
) -> (Vec<Held>, Option<Swap>) {
    let Ground { scene, order, volumes, .. } = ground;
    let fit = scene.fit();
    let mut held = Vec::new();
    let casing = order.readings.casing_pressure;
    let [driller, weighted] = courses;
    let choke = |course: Option<&Course>| course.map(|course| course.choke.value);
    let at_choke = |name: String, place: Place, capacity: Option<f64>, source: &'static str| Held {
        name,
        place,
        capacity,
        source,
        shut_in: Some(casing),
        driller: choke(driller),
        weighted: choke(weighted),
    };

    let above = fit.well.casing_above(order.section);
    let shoe_depth = above.map_or(0.0, |casing| casing.shoe);
    let column = |weight: f64| weight * order.constants.gravity * scene.vertical_depth(shoe_depth);
    let test = above.and_then(|casing| casing.leak_off);
    let points = scene.prepared_flow().open_hole.above(order.hole_depth);
    let pressed = points.iter().find(|point| point.tested).map_or(0.0, |point| squeezed(scene, point));
    let shoe_pressure = |course: Option<&Course>| course.map(|course| course.shoe.value);
    // What the gauge reads, and the mud down to a depth above the gas, tell more than a gas of the well file.
    let gas_top = driller.and_then(|course| course.rows.first()).map(|row| row.instant.gas_top);
    let now = |vertical_depth: f64, marched: Option<f64>| {
        let read = casing + scene.section().mud.weight * order.constants.gravity * vertical_depth;
        if gas_top.is_none_or(|top| vertical_depth <= top) { Some(read) } else { marched }
    };
    let marched = driller.and_then(|course| course.rows.first()).map(|row| row.instant.weak_pressure);
    let shoe_shut_in = now(scene.vertical_depth(shoe_depth), marched);
    held.push(Held {
        name: match test {
            Some(test) if test.integrity_only => "shoe, by integrity test (FIT)".to_owned(),
            Some(test) if !test.measured => "shoe, by planned leak-off".to_owned(),
            _ => "shoe, by leak-off test".to_owned(),
        },
        place: Place::Depth(shoe_depth),
        capacity: test.map(|test| column(test.weight) - pressed),
        source: if test.is_some() { "well file" } else { "section[].casing.leak_off" },
        shut_in: shoe_shut_in,
        driller: shoe_pressure(driller),
        weighted: shoe_pressure(weighted),
    });
    if let Some(weak) = weakest.filter(|weak| !weak.point.tested) {
        held.push(Held {
            name: "weakest depth of open hole".to_owned(),
            place: Place::Depth(weak.point.depth),
            capacity: Some(weak.strength),
            source: "formations",
            shut_in: now(weak.point.vertical_depth, Some(weak.shut_in)),
            driller: Some(weak.driller.value),
            weighted: Some(weak.weighted.value),
        });
    }
    if weakest.is_none_or(|weak| weak.unknown) {
        let name = if weakest.is_some() { "open hole of unknown strength" } else { "weakest depth of open hole" };
        held.push(at_choke(name.to_owned(), Place::Depth(order.hole_depth), None, "formation[].fracture"));
    }
    rec.heading("what the casing bears, with mud inside and water behind");
    match burst_limits(scene, scene.section().mud.weight, rec) {
        Err(entry) => held.push(at_choke("burst of the casing".to_owned(), Place::Surface, None, entry)),
        Ok(limits) => {
            let least = limits.into_iter().min_by(|a, b| a.0.capacity.total_cmp(&b.0.capacity));
            if let Some((limit, depth)) = least {
                let place = if depth > 0.0 { Place::Depth(depth) } else { Place::Surface };
                let name = "casing, its share of burst".to_owned();
                held.push(at_choke(name, place, Some(limit.capacity), "API 5C3"));
            }
        }
    }
    for rated in at_surface(scene, rec) {
        held.push(at_choke(rated.name, Place::Surface, rated.rating, from(rated.rating, rated.entry)));
    }
    let surface = held.iter().filter(|one| one.source != "well file" && one.source != "formations");
    let surface = surface.filter_map(|one| one.capacity).reduce(f64::min);
    let liner = fit.rig.pump.liner(scene.section().drilling.liner).map(|liner| liner.rating);
    for (name, capacity, entry) in [
        ("pump liner", liner, "rig.pump.liners"),
        ("surface lines and hose", fit.rig.surface_lines.rating, "rig.surface_lines.rating"),
    ] {
        held.push(Held {
            name: name.to_owned(),
            place: Place::Surface,
            capacity,
            source: from(capacity, entry),
            shut_in: initial_pressure,
            driller: None,
            weighted: None,
        });
    }
    let swap = driller.map(|course| {
        let Instants { gas_above_shoe, .. } = course.instants;
        let friction = slow.and_then(|slow| {
            let subsea = fit.riser(order.section).is_some();
            let choke_line = if subsea { slow.choke_line_loss? } else { 0.0 };
            Some(annular_friction(scene, slow.reading.pump_speed * volumes.pump_output, shoe_depth)? + choke_line)
        });
        let maasp = test.map(|test| column(test.weight) - column(scene.section().mud.weight));
        Swap { pumped: gas_above_shoe, maasp, surface, friction }
    });
    (held, swap)
}

fn from(capacity: Option<f64>, entry: &'static str) -> &'static str {
    if capacity.is_some() { "nameplate" } else { entry }
}

/// What is passed, and what follows from the test of the shoe.
pub(super) fn cautions(limits: &[Held], scene: &Scene) -> Vec<Remark> {
    let mut cautions = Vec::new();
    for held in limits {
        let (Some(capacity), Some(most)) = (held.capacity, held.most()) else { continue };
        if most <= capacity {
            continue;
        }
        let already = held.shut_in.is_some_and(|shut_in| shut_in > capacity);
        let when = match (already, held.driller, held.weighted) {
            (true, ..) => "is passed already as the well stands",
            (false, Some(_), Some(weighted)) if weighted <= capacity => {
                "will be passed by driller's method, not by wait and weight"
            }
            _ => "will be passed on the way",
        };
        cautions.push(Remark::new(format!("{}: {when}", held.name)).with("bears", capacity, Kind::Pressure).with(
            "most asked of it",
            most,
            Kind::Pressure,
        ));
    }
    let test = scene.fit().well.casing_above(scene.situation.section).and_then(|casing| casing.leak_off);
    if test.is_some_and(|test| test.integrity_only) {
        cautions.push(Remark::new(
            "the shoe test was an integrity test (FIT): it is not a fracture pressure, and weaker zones may lie below the shoe",
        ));
    } else {
        cautions.push(Remark::new("a leak-off weight holds at the shoe; weaker zones may lie below it"));
    }
    cautions
}
