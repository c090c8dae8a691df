//! The well as a whole, and its layers.

use super::{Assumed, assume, base, like, mud_report, rock_pressure, top};
use crate::sheet::At;
use rigwright_physics::trajectory::Path;
use rigwright_units::Kind;
use rigwright_well::{
    CasingFactors, DesignKick, Formation, Friction, Geotherm, Heat, Heave, LastDone, Margins, Reserves, Rig, Rock, Sea, Site,
    Well, WellKind,
};

pub(super) fn well(at: &At<'_>, path: Path, rig: &Rig, assumed: &mut Vec<Assumed>) -> Option<Well> {
    if at.table("survey").is_none() {
        assume(assumed, at, "survey", "vertical".to_owned());
    }
    let kind = kind(at)?;
    let sections = super::section::sections(at, rig, assumed)?;
    let end = path.vertical_depth_at(sections.last()?.bottom);
    let formations = formations(at, end, assumed)?;
    let (temperature, friction, margins) = (at.table("temperature")?, at.table("friction")?, at.table("margins")?);
    let factors = at.table("casing_factors")?;
    let (reserves, kick) = (at.table("reserves")?, at.table("kick")?);
    Some(Well {
        name: at.text("name")?.to_owned(),
        kind,
        jurisdiction: at.text("jurisdiction").map(str::to_owned),
        datum: at.text("datum")?.to_owned(),
        elevation: at.number("elevation")?,
        water_depth: if kind == WellKind::Land { 0.0 } else { at.number("water_depth")? },
        prices: mud_report::prices(at).into(),
        sea: match at.table("sea") {
            Some(sea) => Some(Sea {
                density: sea.number("density")?,
                heave: match (sea.number("heave"), sea.number("heave_period")) {
                    (Some(height), Some(period)) => Some(Heave { height, period }),
                    _ => None,
                },
            }),
            None => None,
        },
        site: {
            let site = at.table("site")?;
            Site {
                altitude: site.number("altitude"),
                air_temperature: site.number("air_temperature"),
                humidity: site.number("humidity"),
            }
        }
        .into(),
        path,
        formations,
        geotherm: Geotherm { surface: temperature.number("surface")?, gradient: temperature.number("gradient")? },
        heat: Heat {
            rock: Rock {
                conductivity: temperature.number("conductivity")?,
                density: temperature.number("rock_density")?,
                specific_heat: temperature.number("specific_heat")?,
            },
            circulated: temperature.number("circulated")?,
            friction: temperature.text("friction_heat")? == "counted",
        }
        .into(),
        sections,
        friction: Friction { cased: friction.number("cased")?, open: friction.number("open")? }.into(),
        margins: Margins {
            trip: margins.number("trip")?,
            swab: margins.number("swab")?,
            fracture: margins.number("fracture")?,
            overpull: margins.number("overpull")?,
        }
        .into(),
        reserves: Reserves {
            load: reserves.number("load")?,
            machinery: reserves.number("machinery")?,
            strength: reserves.number("strength")?,
            pressure: reserves.number("pressure")?,
            power: reserves.number("power")?,
            volume: reserves.number("volume")?,
        }
        .into(),
        casing_factors: CasingFactors {
            collapse: factors.number("collapse")?,
            tension: factors.number("tension")?,
            triaxial: factors.number("triaxial")?,
        }
        .into(),
        kick: DesignKick {
            volume: kick.number("volume"),
            intensity: kick.number("intensity"),
            gas_gravity: kick.number("gas_gravity")?,
            sulphide: kick.number("hydrogen_sulphide"),
            alarm_gain: kick.number("alarm_gain"),
            inflow: kick.number("inflow"),
            reaction_time: kick.number("reaction_time"),
        }
        .into(),
        last_done: at
            .list("last_done")
            .iter()
            .map(|row| Some(LastDone { what: row.text("what")?.to_owned(), date: row.day("date")? }))
            .collect::<Option<_>>()?,
    })
}

pub(crate) fn kind(at: &At<'_>) -> Option<WellKind> {
    match at.text("kind")? {
        "land" => Some(WellKind::Land),
        "bottom-supported" => Some(WellKind::BottomSupported),
        "floating" => Some(WellKind::Floating),
        _ => None,
    }
}

fn formations(well: &At<'_>, end: f64, assumed: &mut Vec<Assumed>) -> Option<Vec<Formation>> {
    let layers = well.list("formation");
    let mut formations = Vec::with_capacity(layers.len());
    for (index, layer) in layers.iter().enumerate() {
        let (top, base) = (top(&layers, index)?, base(&layers, index, Some(end))?);
        if !layer.given("top") {
            assume(assumed, layer, "top", "0 ft".to_owned());
        }
        if !layer.given("base") && index + 1 == layers.len() {
            assume(assumed, layer, "base", like(base, Kind::Depth, layer.written("top")));
        }
        let ends = |key: &str| layer.pressures(key).map(|[above, below]| [rock_pressure(above, top), rock_pressure(below, base)]);
        formations.push(Formation {
            name: layer.text("name")?.to_owned(),
            top,
            base,
            rock: layer.text("rock").map(str::to_owned),
            pore: ends("pore")?,
            fracture: ends("fracture"),
            collapse: ends("collapse"),
            fluid: layer.text("fluid").map(str::to_owned),
        });
    }
    Some(formations)
}
