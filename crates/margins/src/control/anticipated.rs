//! The pressure that may be met at surface, against everything that has to bear it.

use crate::geometry;
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::control::criticals::NaturalGas;
use rigwright_physics::control::gas::ZMethod;
use rigwright_physics::control::gas_column::{ColumnPoint, GasColumn};
use rigwright_physics::control::limits::LeakOffPressure;
use rigwright_physics::tubular::{BurstStrength, WallThickness};
use rigwright_physics::{Kind, Off, Recorder, STANDARD_ATMOSPHERE};
use rigwright_well::Casing;

/// Steps of a gas column: with 40 the pressure at its top moves by less than 0.01 % when they are doubled.
const STEPS: u32 = 40;

/// What may be met at surface. [Pa]
struct Anticipated {
    pressure: f64,
    /// Measured depth that it comes from. [m]
    depth: f64,
}

/// The smaller of two limits: gas from the strongest layer all the way up, and gas below a shoe that breaks.
/// `Err` is the answer when the question does not arise.
fn anticipated<R: Recorder>(scene: &Scene, rec: &mut R) -> Result<Anticipated, Answer> {
    let fit = scene.fit();
    let section = scene.situation.section;
    let Some(casing) = fit.well.casing_above(section) else {
        return Err(super::DIVERTED);
    };
    let gas = NaturalGas::sweet(fit.well.kick.gas_gravity).resolve(rec);
    let start = fit.well.elevation + fit.well.water_depth;
    let temperature = |vertical_depth: f64| fit.well.geotherm.at(vertical_depth, start);
    let column = GasColumn { gas, method: ZMethod::Tabulated, temperature: &temperature, gravity: scene.gravity(), steps: STEPS };
    let outside = || Answer::Missing(vec!["kick.gas_gravity"]);

    // Pore pressure is straight within a layer, so the worst depth is an end of one, or of the open hole.
    let (top, bottom) = (geometry::open_from(fit, section), scene.section().bottom);
    let ends = crate::sweep::layer_tops(fit).flat_map(|end| [end - 1e-3, end + 1e-3]).chain([top, bottom]);
    let mut strongest: Option<(f64, ColumnPoint)> = None;
    for depth in ends.filter(|depth| (top..=bottom).contains(depth)) {
        let vertical_depth = scene.vertical_depth(depth);
        let pore = fit.well.formation_at(vertical_depth).pore_at(vertical_depth);
        let point = ColumnPoint { vertical_depth, pressure: pore + STANDARD_ATMOSPHERE };
        let at_surface = column.pressure_at(&mut Off, point, 0.0).ok_or_else(outside)?;
        if strongest.is_none_or(|(most, _)| at_surface > most) {
            strongest = Some((at_surface, ColumnPoint { vertical_depth: depth, ..point }));
        }
    }
    let Some((_, from)) = strongest else { return Err(Answer::DoesNotArise("no open hole")) };
    rec.heading("first limit: gas from the strongest layer to surface");
    rec.given("measured depth of it", from.vertical_depth, Kind::Depth);
    rec.given("pore pressure there", from.pressure - STANDARD_ATMOSPHERE, Kind::Pressure);
    let point = ColumnPoint { vertical_depth: scene.vertical_depth(from.vertical_depth), ..from };
    let gas_to_surface = column.pressure_at(rec, point, 0.0).ok_or_else(outside)? - STANDARD_ATMOSPHERE;
    rec.given("surface pressure with gas to surface", gas_to_surface, Kind::Pressure);
    let first = Anticipated { pressure: gas_to_surface, depth: from.vertical_depth };

    rec.heading("second limit: the shoe breaks below the gas");
    let shoe_depth = scene.vertical_depth(casing.shoe);
    let Some(fracture) = shoe_fracture(scene, casing, rec) else {
        rec.note(|| "Nobody knows what the shoe bears, so the first limit stands.".into());
        return Ok(first);
    };
    let shoe = ColumnPoint { vertical_depth: shoe_depth, pressure: fracture + STANDARD_ATMOSPHERE };
    let shoe_limit = column.pressure_at(rec, shoe, 0.0).ok_or_else(outside)? - STANDARD_ATMOSPHERE;
    rec.given("surface pressure when the shoe breaks", shoe_limit, Kind::Pressure);
    Ok(if shoe_limit < gas_to_surface { Anticipated { pressure: shoe_limit, depth: casing.shoe } } else { first })
}

/// The most that the rock at the shoe may bear: the test where one is given, else the layer. What may be met is
/// larger where the rock is stronger, so of the two the larger counts.
fn shoe_fracture<R: Recorder>(scene: &Scene, casing: &Casing, rec: &mut R) -> Option<f64> {
    let shoe_depth = scene.vertical_depth(casing.shoe);
    let rock = scene.fit().well.formation_at(shoe_depth).fracture_at(shoe_depth);
    let test = casing.leak_off.map(|test| {
        let gravity = scene.gravity();
        rec.take(LeakOffPressure { surface_pressure: 0.0, mud_weight: test.weight, shoe_depth, gravity })
    });
    if let Some(rock) = rock {
        rec.given("fracture pressure of the layer at the shoe", rock, Kind::Pressure);
    }
    match (rock, test) {
        (Some(rock), Some(test)) => Some(rock.max(test)),
        (rock, test) => rock.or(test),
    }
}

/// Judges a rating; the question does not arise, or the rating is missing, as the case may be.
fn against<R: Recorder>(scene: &Scene, rec: &mut R, limits: &[Limit], missing: &'static str) -> Answer {
    let met = match anticipated(scene, rec) {
        Ok(met) => met,
        Err(answer) => return answer,
    };
    rec.heading("against the ratings");
    for limit in limits {
        rec.given(limit.name, limit.capacity, Kind::Pressure);
    }
    let judged = |limit: &Limit| Judged { demand: met.pressure, limit: *limit, place: Place::Depth(met.depth), zero: 0.0 };
    worst(limits.iter().map(judged)).map_or(Answer::Missing(vec![missing]), Answer::Judged)
}

fn rating(scene: &Scene, capacity: f64, name: &'static str, source: &'static str) -> Limit {
    Limit { capacity, reserve: (scene.fit().well.reserves.pressure * capacity).max(1.0), name, source }
}

pub(super) fn stack_rating<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    use rigwright_well::PreventerKind::{Annular, BlindRam, BlindShearRam, PipeRam};
    let name = |kind| match kind {
        Annular => "working pressure of the annular",
        PipeRam => "working pressure of the pipe rams",
        BlindRam => "working pressure of the blind rams",
        BlindShearRam => "working pressure of the blind-shear rams",
    };
    let limits: Vec<Limit> = scene
        .fit()
        .rig
        .stack
        .iter()
        .map(|preventer| rating(scene, preventer.rating, name(preventer.kind), "nameplate"))
        .collect();
    against(scene, rec, &limits, "rig.preventer[]")
}

pub(super) fn wellhead_rating<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let limits =
        scene.fit().rig.wellhead_rating.map(|capacity| rating(scene, capacity, "working pressure of the wellhead", "nameplate"));
    against(scene, rec, limits.as_slice(), "rig.wellhead.rating")
}

pub(super) fn manifold_rating<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let manifold = scene.fit().rig.manifold_rating;
    let limits = manifold.map(|capacity| rating(scene, capacity, "working pressure of the choke manifold", "nameplate"));
    against(scene, rec, limits.as_slice(), "rig.choke_manifold.rating")
}

pub(super) fn casing_burst<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let Some(casing) = scene.fit().well.casing_above(scene.situation.section) else {
        return super::DIVERTED;
    };
    let Some(fraction) = casing.burst_fraction else { return Answer::Missing(vec!["section[].casing.burst_fraction"]) };
    rec.heading("burst strength of the casing above");
    rec.stretch(|| casing.name.clone(), casing.top, casing.shoe);
    let (outer_diameter, inner_diameter) = (casing.outer_diameter, casing.inner_diameter);
    let wall = rec.take(WallThickness { outer_diameter, inner_diameter });
    let burst = rec.take(BurstStrength { yield_strength: casing.yield_strength, wall, outer_diameter, wall_share: 0.875 });
    rec.given("share of burst that may be used", fraction, Kind::Fraction);
    let limits =
        [rating(scene, fraction * burst, "allowed burst of the casing above", "API TR 5C3, and the share in the well file")];
    against(scene, rec, &limits, "section[].casing.burst_fraction")
}
