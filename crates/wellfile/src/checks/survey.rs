//! The survey.

use super::{more, need};
use crate::finding::Finding;
use crate::report::Report;
use crate::sheet::{At, Row};
use rigwright_physics::trajectory::{LARGEST_DOGLEG, Path};
use std::f64::consts::PI;

/// Steeper curves than the shortest-radius wells have (30 degrees in 100 ft, common practice) are slips. [rad/m]
const STEEPEST: f64 = 30.0 * PI / 180.0 / 30.48;

pub(super) fn check(well: &At<'_>, path: Option<&Path>, report: &mut Report) {
    let Some(survey) = well.table("survey") else { return };
    if survey.held("stations").is_some() && survey.held("file").is_some() {
        report.push(
            Finding::error("well::two-surveys", "the survey is given twice")
                .on(&survey, "file", "in a file")
                .on(&survey, "stations", "and here")
                .help("leave one of them out"),
        );
        return;
    }
    if survey.held("file").is_none() {
        need(&survey, &["stations"], "a survey has stations, or a `file` of them", report);
    }
    let Some(rows) = survey.stations() else { return };
    for pair in rows.windows(2) {
        let [upper, lower] = pair else { continue };
        order(upper, lower, report);
    }
    for row in rows {
        let inclination = row.values[1];
        if !(0.0..=PI).contains(&inclination) {
            report.push(
                Finding::error("well::inclination", "an inclination is not between 0 and 180 degrees")
                    .at(&row.place, "this station")
                    .help("inclination is measured from the vertical, never negative; the direction is in the azimuth"),
            );
        }
    }
    if let Some(path) = path {
        curves(path, rows, report);
        reaches(well, &survey, rows, report);
    }
}

fn order(upper: &Row, lower: &Row, report: &mut Report) {
    if !more(lower.values[0], upper.values[0]) {
        report.push(
            Finding::error("well::stations-order", "a station does not lie below the one before it")
                .at(&lower.place, "this station")
                .at(&upper.place, "is not deeper than this one")
                .help("list stations from the top down, each depth once"),
        );
        return;
    }
    let angle = turn(upper, lower);
    if angle > LARGEST_DOGLEG {
        report.push(
            Finding::error("well::dogleg", format!("the hole turns by {:.0} degrees between two stations", angle.to_degrees()))
                .at(&lower.place, "this station")
                .at(&upper.place, "points elsewhere than this one")
                .help("one arc cannot tell how it turned; check inclination and azimuth, or add stations between"),
        );
    }
}

/// Angle between the directions of two stations. [rad]
fn turn(upper: &Row, lower: &Row) -> f64 {
    let direction = |row: &Row| {
        let [_, inclination, azimuth] = row.values;
        [inclination.sin() * azimuth.cos(), inclination.sin() * azimuth.sin(), inclination.cos()]
    };
    let (a, b) = (direction(upper), direction(lower));
    let along: f64 = a.iter().zip(b).map(|(a, b)| a * b).sum();
    along.clamp(-1.0, 1.0).acos()
}

fn curves(path: &Path, rows: &[Row], report: &mut Report) {
    for pair in rows.windows(2) {
        let [upper, lower] = pair else { continue };
        let middle = 0.5 * (upper.values[0] + lower.values[0]);
        let severity = path.dogleg_severity_at(middle);
        if severity > STEEPEST {
            let degrees = severity.to_degrees() * 30.48;
            report.push(
                Finding::caution("well::dogleg", format!("a dogleg of {degrees:.0} degrees in 100 ft"))
                    .at(&lower.place, "down to this station")
                    .at(&upper.place, "from this one")
                    .help("hardly any hole turns so fast; check depth, inclination and azimuth"),
            );
        }
    }
}

fn reaches(well: &At<'_>, survey: &At<'_>, rows: &[Row], report: &mut Report) {
    let sections = well.list("section");
    let (Some(last), Some(row)) = (sections.last(), rows.last()) else { return };
    if last.number("bottom").is_some_and(|bottom| more(bottom, row.values[0])) {
        let key = if survey.held("file").is_some() { "file" } else { "stations" };
        report.push(
            Finding::caution("well::survey-ends", "the survey ends above the end of the well")
                .on(survey, key, "its last station")
                .on(last, "bottom", "is above this depth")
                .help("the hole is taken to go on straight; add the planned stations below"),
        );
    }
}
