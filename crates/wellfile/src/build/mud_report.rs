//! Retort, filter press, sticking and progress.

use crate::sheet::At;
use rigwright_physics::circulating::density::salts::Salt;
use rigwright_well::{CandidateMud, Filtrate, MudKind, Prices, Progress, Reading, Retort, Rheogram, Sticking};

/// The retort of a mud; the outer `None` says that something needed is missing.
pub(super) fn retort(mud: &At<'_>) -> Option<Option<Retort>> {
    let Some(at) = mud.table("retort") else { return Some(None) };
    Some(Some(Retort {
        oil: at.number("oil")?,
        water: at.number("water")?,
        chlorides: at.number("chlorides"),
        salt: salt(&at)?,
        salt_fraction: at.number("salt_fraction"),
        oil_density: at.number("oil_density")?,
        light_density: at.number("light_density")?,
        heavy_density: at.number("heavy_density")?,
        most_light: at.number("most_light")?,
    }))
}

/// The salt of the water phase.
pub(crate) fn salt(retort: &At<'_>) -> Option<Salt> {
    let word = retort.text("salt")?;
    Salt::ALL.into_iter().find(|salt| salt.name() == word)
}

/// Readings of the filter press, by time.
pub(super) fn filtrate(mud: &At<'_>) -> Vec<Filtrate> {
    let pairs = mud.pairs("filtrate").unwrap_or_default();
    pairs.iter().map(|pair| Filtrate { time: pair.key, volume: pair.value }).collect()
}

/// A reading of depth and stroke counter.
pub(super) fn progress(at: &At<'_>) -> Option<Progress> {
    Some(Progress { depth: at.number("depth")?, strokes: at.number("strokes")? })
}

/// A mud that could be used instead.
pub(super) fn candidate(at: &At<'_>) -> Option<CandidateMud> {
    let readings = at.pairs("readings")?.iter().map(|pair| Reading { speed_rpm: pair.key, dial: pair.value });
    Some(CandidateMud {
        name: at.text("name")?.to_owned(),
        kind: kind(at)?,
        weight: at.number("weight")?,
        rheogram: Rheogram { readings: readings.collect(), temperature: None, date: None },
        gels: at.ends("gels"),
        price: at.number("price"),
        discharge: at.text("discharge").map(str::to_owned),
    })
}

/// What a mud is made of.
pub(super) fn kind(mud: &At<'_>) -> Option<MudKind> {
    match mud.text("kind")? {
        "water-based" => Some(MudKind::Water),
        "oil-based" => Some(MudKind::Oil),
        "synthetic-based" => Some(MudKind::Synthetic),
        _ => None,
    }
}

pub(super) fn prices(well: &At<'_>) -> Prices {
    let Some(at) = well.table("prices") else { return Prices::default() };
    Prices { barite: at.number("barite"), base_oil: at.number("base_oil"), water: at.number("water") }
}

pub(super) fn sticking(at: &At<'_>) -> Option<Sticking> {
    Some(Sticking {
        cake: at.number("cake"),
        cake_friction: at.number("cake_friction"),
        contact_length: at.number("contact_length"),
        still: at.number("still")?,
        most_overbalance: at.number("most_overbalance"),
    })
}
