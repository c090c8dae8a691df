//! Solids of the mud from retort and weight, with the salt taken out of them, and what the filter press tells.

use super::sticking;
use crate::fields::open_hole::Point;
use crate::{Answer, Figure, Judged, Limit, Place, Scene};
use rigwright_physics::Recorder;
use rigwright_physics::circulating::balances::{
    BrineFraction, Concentration, SaltWaterDensity, SaltWaterFraction, SuspendedSolids,
};
use rigwright_physics::circulating::density::brine::surface_brine_density;
use rigwright_physics::circulating::filtration::{FiltrateAtConditions, FiltrateAtTime, PRESS_PRESSURE, SpurtLoss};
use rigwright_physics::circulating::mixing::{HeavySolids, RetortSolidsDensity};
use rigwright_units::Kind;
use rigwright_well::{MudKind, Retort};

/// Temperature at which the water of a retort is measured: 20 °C. [K] (common practice)
const ROOM: f64 = 293.15;
/// Density of fresh water there. [kg/m³]
const WATER: f64 = 998.2;

/// Light solids stay few.
pub(super) fn solids<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let mud = &scene.section().mud;
    let Some(retort) = mud.retort else { return Answer::DoesNotArise("no retort is in the mud report") };
    let demand = match light_solids(&retort, mud.weight, mud.kind, rec) {
        Ok(light) => light,
        Err(entry) => return Answer::Missing(vec![entry]),
    };
    let capacity = retort.most_light;
    let limit = Limit {
        capacity,
        reserve: scene.fit().well.reserves.volume * capacity,
        name: "share of light solids wanted at most",
        source: "well file",
    };
    Answer::Judged(Judged { demand, limit, place: Place::Surface, zero: 0.0 })
}

/// Share of light solids, clay and drilled rock, in a mud; the entry without which it is not known.
fn light_solids<R: Recorder>(retort: &Retort, density: f64, kind: MudKind, rec: &mut R) -> Result<f64, &'static str> {
    let Retort { oil, water, oil_density, light_density, heavy_density, .. } = *retort;
    rec.heading("water of the mud, with its salt");
    let (salt_water, salt_water_density) = match (retort.salt_fraction, retort.chlorides) {
        (Some(salt_fraction), _) => {
            let brine_density = surface_brine_density(retort.salt, salt_fraction, ROOM, rec);
            rec.note(|| format!("the salt is {}", retort.salt.name()));
            let brine = BrineFraction { water_fraction: water, water_density: WATER, salt_fraction, brine_density };
            (rec.take(brine), brine_density)
        }
        (None, Some(chlorides)) if kind == MudKind::Water => {
            (rec.take(SaltWaterFraction { water_fraction: water, chlorides }), rec.take(SaltWaterDensity { chlorides }))
        }
        (None, _) if kind == MudKind::Water => return Err("section[].mud.retort.chlorides"),
        (None, _) => return Err("section[].mud.retort.salt_fraction"),
    };
    rec.heading("solids that hang in the mud");
    let salt_water = salt_water.min(1.0);
    let suspended = rec.take(SuspendedSolids { oil_fraction: oil, salt_water_fraction: salt_water });
    // Nothing to split: water, oil and rounding.
    if suspended < LEAST {
        return Ok(suspended.max(0.0));
    }
    let solids_density = rec.take(RetortSolidsDensity {
        density,
        oil_fraction: oil,
        oil_density,
        water_fraction: salt_water,
        water_density: salt_water_density,
        solids_fraction: suspended,
    });
    let heavy = rec.take(HeavySolids {
        solids_fraction: suspended,
        solids_density: solids_density.max(0.0),
        light_density,
        heavy_density,
    });
    let light = suspended - heavy;
    rec.given("the rest: share of light solids", light, Kind::Fraction);
    if light < 0.0 || heavy < -ROUNDING {
        rec.note(|| "The solids come out lighter or heavier than any: retort, weight and salt do not agree.".to_owned());
        return Err("section[].mud.retort");
    }
    rec.heading("mass of solids in the mud");
    rec.take(Concentration { share: light.min(1.0), density: light_density });
    rec.take(Concentration { share: heavy.clamp(0.0, 1.0), density: heavy_density });
    Ok(light)
}

/// Smallest share of solids that is split: retorts are read to half a per cent. [-]
const LEAST: f64 = 0.005;
/// What a retort may be off by. [-]
const ROUNDING: f64 = 0.005;

/// What the filter press tells: spurt, filtrate by the standard time, and what that means under the mud of the hole.
pub(super) fn filtrate<R: Recorder>(scene: &Scene, rec: &mut R) -> Answer {
    let section = scene.section();
    let [first, .., last] = section.mud.filtrate[..] else {
        return match section.mud.filtrate.first() {
            Some(_) => Answer::DoesNotArise("one reading of the filter press tells no spurt"),
            None => Answer::DoesNotArise("no filtrate is in the mud report"),
        };
    };
    rec.heading("filter press");
    let spurt_loss =
        rec.take(SpurtLoss { filtrate_1: first.volume, duration_1: first.time, filtrate_2: last.volume, duration_2: last.time });
    let standard = FiltrateAtTime { spurt_loss, filtrate_1: last.volume, duration_1: last.time, duration: STANDARD };
    let filtrate = rec.take(standard);
    let figure = |name, value, kind| Figure { name, value, kind };
    let mut figures =
        vec![figure("filtrate in half an hour", filtrate, Kind::Filtrate), figure("spurt", spurt_loss, Kind::Filtrate)];
    if let Some((overbalance, at)) = sticking::largest_overbalance(scene) {
        rec.heading("under the mud of the hole");
        show_overbalance(overbalance, &at, rec);
        let still = section.sticking.still;
        rec.given("longest time that the string lies still", still, Kind::Time);
        let conditions = FiltrateAtConditions {
            filtrate_1: (filtrate - spurt_loss).max(0.0),
            pressure_1: PRESS_PRESSURE,
            duration_1: STANDARD,
            viscosity_1: 1.0,
            pressure_2: overbalance.max(0.0),
            duration_2: still,
            viscosity_2: 1.0,
        };
        let there = rec.take(conditions);
        rec.note(|| "Neither viscosity nor cake changes down the hole; a cake that gives way to pressure loses less.".to_owned());
        figures.push(figure("filtrate of a press under that overbalance", there, Kind::Filtrate));
        if let Some(cake) = section.sticking.cake
            && conditions.filtrate_1 > 0.0
        {
            let grown = cake * there / conditions.filtrate_1;
            rec.given("cake of the press", cake, Kind::Diameter);
            rec.given("cake grows with its filtrate: cake in that time", grown, Kind::Diameter);
            figures.push(figure("cake that grows while the string lies still", grown, Kind::Diameter));
        }
    }
    Answer::Told(figures)
}

/// Half an hour: the standard time of the press. [s]
const STANDARD: f64 = 1800.0;

fn show_overbalance<R: Recorder>(overbalance: f64, at: &Point, rec: &mut R) {
    rec.given("largest overbalance on permeable rock, pumps off", overbalance, Kind::Pressure);
    rec.given("measured depth there", at.depth, Kind::Depth);
}
