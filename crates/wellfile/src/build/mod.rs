//! Builds the checked well and rig from what was read. Runs only when nothing is wrong; what it works out from
//! other entries it notes as assumed.

mod mud_report;
mod rig;
mod section;
mod well;

pub(crate) use mud_report::salt;
pub(crate) use section::part_kind;
pub(crate) use well::kind as well_kind;

use crate::sheet::{At, Pair, RockPressure, Sheet};
use rigwright_physics::trajectory::Path;
use rigwright_physics::tubular::{CasingDrift, casing_inside_diameter, drill_pipe_inside_diameter};
use rigwright_physics::{Formula, STANDARD_GRAVITY};
use rigwright_units::{Kind, show_exact_in, unit_at_end, units_of};
use rigwright_well::{Fit, WellKind};

/// A value that was worked out from other entries.
#[derive(Clone, Debug)]
pub(crate) struct Assumed {
    /// Concrete path of the entry.
    pub(crate) path: String,
    /// The value as it could be written.
    pub(crate) text: String,
    /// Where the table that lacks it begins. [byte]
    pub(crate) start: usize,
}

/// Builds it all; `None` when something required is absent, which the walk and the checks have then said.
pub(crate) fn fit(sheet: &Sheet, path: Path) -> Option<(Fit, Vec<Assumed>)> {
    let mut assumed = Vec::new();
    let rig = rig::rig(&sheet.rig(), &mut assumed)?;
    let well = well::well(&sheet.well(), path, &rig, &mut assumed)?;
    Some((Fit::new(well, rig), assumed))
}

/// A yes or a no, where one is written.
fn yes(at: &At<'_>, key: &str) -> Option<bool> {
    at.text(key).map(|word| word == "yes")
}

/// Notes a value that was worked out.
fn assume(assumed: &mut Vec<Assumed>, at: &At<'_>, key: &str, text: String) {
    let start = at.head().map_or(0, |head| head.span.start);
    assumed.push(Assumed { path: crate::sheet::join(&at.table.path, key), text, start });
}

/// A value in the unit of a text that the user wrote beside it, or else in the most usual one.
fn like(value: f64, kind: Kind, beside: &str) -> String {
    unit_at_end(beside, kind)
        .or_else(|| units_of(kind).next())
        .map_or_else(|| value.to_string(), |unit| show_exact_in(value, unit))
}

/// A pressure in the rock at a vertical depth. [Pa]
pub(crate) fn rock_pressure(pressure: RockPressure, vertical_depth: f64) -> f64 {
    match pressure {
        RockPressure::Weight(density) => density * STANDARD_GRAVITY * vertical_depth,
        RockPressure::Gradient(gradient) => gradient * vertical_depth,
        RockPressure::Pressure(pressure) => pressure,
    }
}

/// The path by the survey in the file, vertical without one. `None` when its stations make no path, which the
/// checks have said.
pub(crate) fn path(sheet: &Sheet) -> Option<Path> {
    let well = sheet.well();
    let Some(survey) = well.table("survey") else { return Some(Path::vertical()) };
    let rows = survey.stations()?;
    let stations: Vec<(f64, f64, f64)> = rows.iter().map(|row| row.values.into()).collect();
    Path::from_stations(&stations).ok()
}

/// Vertical depth of the base of a layer: as given, else the next top, else the end of the well.
pub(crate) fn base(layers: &[At<'_>], index: usize, end: Option<f64>) -> Option<f64> {
    layers[index].number("base").or_else(|| layers.get(index + 1).map_or(end, |next| next.number("top")))
}

/// Vertical depth of the top of a layer: as given, zero for the first.
pub(crate) fn top(layers: &[At<'_>], index: usize) -> Option<f64> {
    layers[index].number("top").or((index == 0).then_some(0.0))
}

/// Inside diameter of a casing: as given, else by size and weight. [m]
pub(crate) fn casing_inside(casing: &At<'_>) -> Option<f64> {
    casing.number("inside").or_else(|| casing_inside_diameter(casing.number("outside")?, casing.number("weight")?))
}

/// Largest diameter of a casing: that of its couplings where they are given. [m]
pub(crate) fn casing_outside(casing: &At<'_>) -> Option<f64> {
    casing.number("coupling").or_else(|| casing.number("outside"))
}

/// Drift of a casing: as given, else by the standard. [m]
pub(crate) fn casing_drift(casing: &At<'_>) -> Option<f64> {
    casing.number("drift").or_else(|| {
        let (outer_diameter, inner_diameter) = (casing.number("outside")?, casing_inside(casing)?);
        Some(CasingDrift { outer_diameter, inner_diameter }.value())
    })
}

/// Inside diameter of a part: as given, else by size and nominal weight of drill pipe. [m]
pub(crate) fn part_inside(part: &At<'_>) -> Option<f64> {
    part.number("inside").or_else(|| drill_pipe_inside_diameter(part.number("outside")?, part.number("nominal")?))
}

/// Catalogues round liners this much between inches and millimetres. [m]
const LINER_ROUNDING: f64 = 0.5e-3;

/// The liner of the rig that is meant by a diameter.
pub(crate) fn liner(liners: &[Pair], diameter: f64) -> Option<&Pair> {
    let near = liners.iter().min_by(|a, b| (a.key - diameter).abs().total_cmp(&(b.key - diameter).abs()));
    near.filter(|pair| (pair.key - diameter).abs() <= LINER_ROUNDING)
}

/// Measured depth where a section begins: the end of the section above.
pub(crate) fn section_top(above: &[At<'_>]) -> Option<f64> {
    above.last().map_or(Some(0.0), |section| section.number("bottom"))
}

/// Depth of the sea bed under a floating rig: casing heads and preventers stand there. [m]
pub(crate) fn sea_bed(well: &At<'_>) -> Option<f64> {
    let floating = well_kind(well)? == WellKind::Floating;
    if floating { Some(well.number("elevation")? + well.number("water_depth")?) } else { None }
}

/// Whether a section is drilled before there is a riser, its mud going out at the sea bed.
pub(crate) fn to_sea_bed(section: &At<'_>) -> bool {
    section.text("returns") == Some("sea-bed")
}

/// The parts of a section's string with their section: its own, or those of the section above that it names.
pub(crate) fn parts<'a>(section: &At<'a>, above: &[At<'a>]) -> Vec<At<'a>> {
    let mut owner = *section;
    let mut left = above;
    // Only sections above may be named, so that the chain ends.
    while let Some(name) = owner.text("string") {
        let Some(index) = left.iter().position(|other| other.text("name") == Some(name)) else { return Vec::new() };
        (owner, left) = (left[index], &left[..index]);
    }
    owner.list("string")
}
