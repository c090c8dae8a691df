//! Shut in on the design kick: the casing pressure against what shoe, casing and ratings allow.

use super::ratings::{burst_limits, rated, seen_from_surface, stack_limit};
use crate::fields::influx::{formation_pressure, maasp, show_gas, with_kick};
use crate::fields::open_hole::Point;
use crate::{Answer, Judged, Limit, Place, Scene, worst};
use rigwright_physics::control::bubble::Bubble;
use rigwright_physics::control::kick::ShutInCasingPressure;
use rigwright_physics::{Kind, Off, Recorder};
use rigwright_well::Operation;

/// What a kick leaves at surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct ShutIn {
    /// Shut-in casing pressure. [Pa]
    pub(crate) casing_pressure: f64,
    /// Vertical depth of the top of the gas. [m]
    pub(crate) gas_top: f64,
}

/// Shut-in casing pressure of an influx at the bottom; `None` where the gas leaves the range of its correlation, fills the
/// annulus, or the hole climbs towards its end.
pub(crate) fn shut_in<R: Recorder>(scene: &Scene, formation_pressure: f64, volume: f64, rec: &mut R) -> Option<ShutIn> {
    with_kick(scene, formation_pressure, |well| {
        let annulus = well.path.annulus;
        if volume >= annulus.volume() {
            return None;
        }
        let bubble = Bubble { below: 0.0, volume, bottom_pressure: formation_pressure };
        let state = well.path.state(bubble)?;
        let gravity = well.path.gravity;
        let influx_height = annulus.height(volume);
        let mud_height = annulus.height(annulus.volume()) - influx_height;
        rec.given("volume of the influx", volume, Kind::Volume);
        rec.given("its vertical height in this annulus", influx_height, Kind::Depth);
        // The weight of the gas column as a mean density, so that the sum can be followed.
        let fall = formation_pressure - state.top_pressure;
        let influx_density = if influx_height > 0.0 { fall / (gravity * influx_height) } else { 0.0 };
        well.path.show(rec, bubble);
        let casing_pressure = rec.take(ShutInCasingPressure {
            formation_pressure,
            mud_weight: well.mud_weight,
            mud_height,
            influx_density,
            influx_height,
            gravity,
        });
        Some(ShutIn { casing_pressure, gas_top: annulus.vertical_depth(volume) })
    })?
}

pub(super) const NOT_SHUT_IN: Answer = Answer::DoesNotArise("the well is not shut in");

/// The design kick, or which entries are missing. [m³, kg/m³]
pub(super) fn design_kick(scene: &Scene) -> Result<(f64, f64), Answer> {
    let kick = scene.fit().well.kick;
    let mut missing = Vec::new();
    if kick.volume.is_none() {
        missing.push("kick.volume");
    }
    if kick.intensity.is_none() {
        missing.push("kick.intensity");
    }
    kick.volume.zip(kick.intensity).ok_or(Answer::Missing(missing))
}

pub(super) fn annular_pressure<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let fit = scene.fit();
    if !super::can_shut_in(scene) {
        return super::DIVERTED;
    }
    if scene.situation.operation != Operation::ShutIn {
        return NOT_SHUT_IN;
    }
    let (volume, intensity) = match design_kick(scene) {
        Ok(kick) => kick,
        Err(missing) => return missing,
    };
    show_gas(scene, rec);
    rec.heading("shut in on the design kick");
    let formation_pressure = formation_pressure(scene, intensity, rec);
    let Some(ShutIn { casing_pressure: demand, gas_top }) = shut_in(scene, formation_pressure, volume, rec) else {
        return Answer::DoesNotArise("the design kick is not one bubble at the bottom of this hole");
    };
    let mut missing = Vec::new();
    let mut judgements = Vec::new();
    let mut judge = |limit: Limit, place: Place| judgements.push(Judged { demand, limit, place, zero: 0.0 });

    let gravity = scene.gravity();
    let mut weakest: Option<(Point, f64)> = None;
    let points = scene.prepared_flow().open_hole.above(scene.situation.hole_depth);
    for point in points.iter().filter(|point| point.vertical_depth <= gas_top) {
        let Some(allowed) = maasp(scene, point, gravity, &mut Off) else {
            missing.push("formation[].fracture");
            continue;
        };
        if weakest.is_none_or(|(_, least)| allowed < least) {
            weakest = Some((*point, allowed));
        }
    }
    if let Some((point, capacity)) = weakest {
        rec.heading("what the weakest depth of open hole above the gas allows");
        rec.given("its measured depth", point.depth, Kind::Depth);
        maasp(scene, &point, gravity, rec);
        // A margin of mud weight, as wanted in the window, so that it stays above nought at a weak depth.
        let reserve = fit.well.margins.fracture * gravity * point.vertical_depth;
        let (name, source) = if point.tested {
            ("MAASP by the shoe test", "leak-off or integrity test of the shoe")
        } else {
            ("MAASP by fracture pressure", "formations of the well file")
        };
        judge(Limit { capacity, reserve, name, source }, Place::Depth(point.depth));
    }
    rec.heading("what the casing bears, with mud inside and water behind");
    match burst_limits(scene, scene.section().mud.weight, rec) {
        Ok(limits) => limits.into_iter().for_each(|(limit, depth)| {
            judge(limit, if depth > 0.0 { Place::Depth(depth) } else { Place::Surface });
        }),
        Err(entry) => missing.push(entry),
    }
    let mut at_bed = |limit: Option<Limit>| limit.map(|limit| seen_from_surface(scene, limit, rec));
    for (limit, entry) in [
        (at_bed(stack_limit(fit)), "rig.preventer[]"),
        (at_bed(fit.rig.wellhead_rating.map(|rating| rated(fit, rating, "rating of the wellhead"))), "rig.wellhead.rating"),
        (fit.rig.manifold_rating.map(|rating| rated(fit, rating, "rating of the choke manifold")), "rig.choke_manifold.rating"),
    ] {
        match limit {
            Some(limit) => judge(limit, Place::Surface),
            None => missing.push(entry),
        }
    }
    missing.dedup();
    match worst(judgements) {
        Some(judged) if missing.is_empty() || judged.room() < 0.0 => Answer::Judged(judged),
        _ => Answer::Missing(missing),
    }
}
