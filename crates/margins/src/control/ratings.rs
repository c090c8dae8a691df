//! What may come to surface against what bears it: rams, wellhead, choke manifold, casing.

use crate::fields::influx::{SurfacePressure, surface_pressure};
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::circulating::column::Hydrostatic;
use rigwright_physics::control::limits::BurstSurfacePressure;
use rigwright_physics::tubular::{BurstStrength, WallThickness};
use rigwright_physics::{Kind, Recorder};
use rigwright_well::{Casing, Fit, PreventerKind};

/// Share of the nominal wall of new pipe that is sure (API 5CT).
pub(super) const WALL_SHARE: f64 = 0.875;
/// Fresh water behind the casing: base fluid of what may stand there. [kg/m³]
pub(super) const BACKUP_WEIGHT: f64 = 1000.0;

const OUT_OF_RANGE: Answer = Answer::DoesNotArise("the gas is colder than its correlation can tell");

/// Which pressure a rating meets.
#[derive(Clone, Copy, PartialEq)]
enum Meets {
    /// That at surface.
    Surface,
    /// That at the preventers, which may stand on the sea bed.
    Stack,
}

/// Holds the anticipated pressure against a rating.
fn against<R: Recorder>(scene: &Scene, meets: Meets, rec: &mut R, rating: Option<Limit>, entry: &'static str) -> Answer {
    if !super::can_shut_in(scene) {
        return super::DIVERTED;
    }
    let Some(limit) = rating else { return Answer::Missing(vec![entry]) };
    let Some(SurfacePressure { pressure, at_stack, .. }) = surface_pressure(scene, rec) else { return OUT_OF_RANGE };
    rec.given(limit.name, limit.capacity, Kind::Pressure);
    let (demand, place) = match meets {
        Meets::Surface => (pressure, Place::Surface),
        Meets::Stack => (at_stack, stack_place(scene.fit())),
    };
    Answer::Judged(Judged { demand, limit, place, zero: 0.0 })
}

/// Where the preventers stand.
pub(super) fn stack_place(fit: &Fit) -> Place {
    fit.well.sea_bed().map_or(Place::Surface, Place::Depth)
}

/// A rating of what stands on the sea bed as a pressure at surface, with the mud down to there inside and the sea outside.
pub(super) fn seen_from_surface<R: Recorder>(scene: &Scene, limit: Limit, rec: &mut R) -> Limit {
    let Some(bed) = scene.fit().well.sea_bed() else { return limit };
    rec.given(limit.name, limit.capacity, Kind::Pressure);
    let column = |density, vertical_depth| Hydrostatic { density, vertical_depth, gravity: scene.gravity() };
    let inside = rec.take(column(scene.section().mud.weight, bed));
    let outside = rec.take(column(scene.sea_density(), scene.fit().well.water_depth));
    let capacity = limit.capacity - (inside - outside);
    rec.given("that rating at surface: less the mud in the choke line, plus the sea outside", capacity, Kind::Pressure);
    Limit { capacity, ..limit }
}

/// Weight of what stands behind casing down to a vertical depth: fresh water, and above a sea bed the sea. [kg/m³]
fn backup_weight(scene: &Scene, vertical_depth: f64) -> f64 {
    let Some(bed) = scene.fit().well.sea_bed().filter(|_| vertical_depth > 0.0) else { return BACKUP_WEIGHT };
    let sea = scene.sea_density() * scene.fit().well.water_depth;
    (sea + BACKUP_WEIGHT * (vertical_depth - bed).max(0.0)) / vertical_depth
}

/// A rating with the wanted reserve on top.
pub(crate) fn rated(fit: &Fit, capacity: f64, name: &'static str) -> Limit {
    Limit { capacity, reserve: fit.well.reserves.pressure * capacity, name, source: "nameplate" }
}

/// The weakest of the rams; of all preventers where there are none.
pub(crate) fn stack_limit(fit: &Fit) -> Option<Limit> {
    let rams = fit.rig.stack.iter().filter(|preventer| preventer.kind != PreventerKind::Annular);
    let weakest = rams.map(|preventer| preventer.rating).reduce(f64::min);
    let any = || fit.rig.stack.iter().map(|preventer| preventer.rating).reduce(f64::min);
    let limit = weakest.map(|rating| rated(fit, rating, "rating of the ram preventers"));
    limit.or_else(|| any().map(|rating| rated(fit, rating, "rating of the annular preventer")))
}

/// Something that bears the casing pressure at surface.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Rated {
    /// What it is.
    pub(crate) name: String,
    /// What it bears at surface, where somebody gave its working pressure. [Pa]
    pub(crate) rating: Option<f64>,
    /// Whether it stands on the sea bed: the loss in the choke line comes on top there while pumping.
    pub(crate) on_bed: bool,
    /// The entry that gives it.
    pub(crate) entry: &'static str,
}

/// Everything that bears the casing pressure: rams, annular preventers, wellhead, choke hose and manifold. What stands on the sea bed
/// bears as much at surface as is left with mud down to there inside and the sea outside.
pub(crate) fn at_surface<R: Recorder>(scene: &Scene, rec: &mut R) -> Vec<Rated> {
    let (fit, rig) = (scene.fit(), &scene.fit().rig);
    let mut on_bed = |rating: Option<f64>| {
        let limit = rating.map(|rating| rated(fit, rating, "working pressure on the sea bed"))?;
        Some(seen_from_surface(scene, limit, rec).capacity)
    };
    let listed = |name: &str, rating: Option<f64>, entry| Rated { name: name.to_owned(), rating, on_bed: false, entry };
    let rams = rig.stack.iter().filter(|preventer| preventer.kind != PreventerKind::Annular);
    let annulars = rig.stack.iter().filter(|preventer| preventer.kind == PreventerKind::Annular);
    let mut all = vec![listed("ram preventers", on_bed(rams.map(|ram| ram.rating).reduce(f64::min)), "rig.preventer[]")];
    all.extend(annulars.map(|annular| listed(&annular.name, on_bed(Some(annular.rating)), "rig.preventer[]")));
    all.push(listed("wellhead", on_bed(rig.wellhead_rating), "rig.wellhead.rating"));
    let subsea = fit.well.sea_bed().is_some();
    all.iter_mut().for_each(|rated| rated.on_bed = subsea);
    all.push(listed("choke hose", rig.choke_hose_rating, "rig.choke_manifold.hose_rating"));
    all.push(listed("choke manifold", rig.manifold_rating, "rig.choke_manifold.rating"));
    all
}

pub(super) fn stack<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    against(scene, Meets::Stack, rec, stack_limit(scene.fit()), "rig.preventer[]")
}

pub(super) fn wellhead<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let rating = fit.rig.wellhead_rating.map(|rating| rated(fit, rating, "rating of the wellhead"));
    against(scene, Meets::Stack, rec, rating, "rig.wellhead.rating")
}

pub(super) fn manifold<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    let rating = fit.rig.manifold_rating.map(|rating| rated(fit, rating, "rating of the choke manifold"));
    against(scene, Meets::Surface, rec, rating, "rig.choke_manifold.rating")
}

/// A length of casing that the well sees from inside, from the innermost string out. Measured depths. [m]
pub(super) struct Exposed<'a> {
    pub(super) casing: &'a Casing,
    pub(super) top: f64,
    pub(super) bottom: f64,
}

/// The casing that stands against the well while a section is drilled.
pub(super) fn exposed(fit: &Fit, section: usize) -> Vec<Exposed<'_>> {
    let mut covered_from = f64::INFINITY;
    let mut lengths = Vec::new();
    for casing in fit.well.sections[..section].iter().rev().filter_map(|above| above.casing.as_ref()) {
        let bottom = casing.shoe.min(covered_from);
        if bottom > casing.top {
            lengths.push(Exposed { casing, top: casing.top, bottom });
        }
        covered_from = covered_from.min(casing.top);
    }
    lengths
}

/// Surface pressures at which each exposed length comes to the share of burst that may be used, at both its ends, with a
/// fluid of one weight inside. An unknown share is missing.
pub(crate) fn burst_limits<R: Recorder>(scene: &Scene, inside: f64, rec: &mut R) -> Result<Vec<(Limit, f64)>, &'static str> {
    let mut limits = Vec::new();
    for Exposed { casing, top, bottom } in exposed(scene.fit(), scene.situation.section) {
        let Some(burst_fraction) = casing.burst_fraction else { return Err("section[].casing.burst_fraction") };
        rec.stretch(|| casing.name.clone(), top, bottom);
        let (outer_diameter, inner_diameter) = (casing.outer_diameter, casing.inner_diameter);
        let wall = rec.take(WallThickness { outer_diameter, inner_diameter });
        let yield_strength = casing.yield_strength;
        let burst = rec.take(BurstStrength { yield_strength, wall, outer_diameter, wall_share: WALL_SHARE });
        for depth in [top, bottom] {
            let vertical_depth = scene.vertical_depth(depth);
            let capacity = rec.take(BurstSurfacePressure {
                burst,
                burst_fraction,
                mud_weight: inside,
                outside_weight: backup_weight(scene, vertical_depth),
                vertical_depth,
                gravity: scene.gravity(),
            });
            // A share of the strength, so that it stays above nought where the mud alone takes all of it.
            let reserve = scene.fit().well.reserves.pressure * burst_fraction * burst;
            limits.push((
                Limit { capacity, reserve, name: "burst of the casing", source: "API 5C3, from dimensions and grade" },
                depth,
            ));
        }
    }
    Ok(limits)
}

pub(super) fn casing_burst<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    if !super::can_shut_in(scene) {
        return super::DIVERTED;
    }
    let Some(surface) = surface_pressure(scene, rec) else { return OUT_OF_RANGE };
    // At surface the weight of the gas does not count; the head on the sea bed feels that of the gas above it.
    let inside = scene.fit().well.sea_bed().map_or(0.0, |_| surface.gas_density);
    rec.heading("what the casing bears, with gas inside and water behind");
    match burst_limits(scene, inside, rec) {
        Err(entry) => Answer::Missing(vec![entry]),
        Ok(limits) => {
            let judge = |(limit, depth)| {
                let place = if depth > 0.0 { Place::Depth(depth) } else { Place::Surface };
                Judged { demand: surface.pressure, limit, place, zero: 0.0 }
            };
            worst(limits.into_iter().map(judge)).map_or(super::DIVERTED, Answer::Judged)
        }
    }
}
