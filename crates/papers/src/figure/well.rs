//! The well to scale: hole, casings with their cement, and the string, at the end of a section. Widths are drawn larger than
//! lengths; both to their own scale.

use super::{Axis, Band, Figure, Fill, Lie, Mark, Role, Series};
use rigwright_margins::{geometry, sweep};
use rigwright_units::{Kind, System, unit};
use rigwright_well::{Casing, Fit};

/// The well at the end of a section, bit on bottom; places across are from the middle of the hole.
pub fn well(fit: &Fit, section: usize, units: System) -> Figure {
    let (across, depth) = (unit(Kind::Diameter, units), unit(Kind::Depth, units));
    let side = |diameter: f64, sign: f64| across.from_si(0.5 * sign * diameter);
    let run = |diameter: f64, sign: f64, top: f64, bottom: f64| {
        vec![(side(diameter, sign), depth.from_si(top)), (side(diameter, sign), depth.from_si(bottom))]
    };
    let mut series: Vec<Series> = Vec::new();
    let mut bands = Vec::new();
    let mut marks = Vec::new();
    let both = |name: &str, role: Role, pieces: &[(f64, f64, f64)]| Series {
        name: name.to_owned(),
        role,
        runs: pieces.iter().flat_map(|(d, top, bottom)| [run(*d, -1.0, *top, *bottom), run(*d, 1.0, *top, *bottom)]).collect(),
    };
    let mut ring = |name: &str, fill: Fill, inner: f64, outer: f64, top: f64, bottom: f64| {
        for sign in [-1.0, 1.0] {
            let (low, high) = (run(inner, sign, top, bottom), run(outer, sign, top, bottom));
            bands.push(Band { name: name.to_owned(), fill, low, high });
        }
    };
    let drilled = &fit.well.sections[..=section.min(fit.well.sections.len() - 1)];
    let mut walls: Vec<(f64, f64, f64)> = Vec::new();
    let mut pipes: Vec<(f64, f64, f64)> = Vec::new();
    for (index, this) in drilled.iter().enumerate() {
        walls.push((this.open_diameter(), this.top, this.bottom));
        let Some(casing) = this.casing.as_ref().filter(|_| index < section) else { continue };
        let Casing { top, shoe, outer_diameter, inner_diameter, .. } = *casing;
        ring(&casing.name, Fill::Steel, inner_diameter, outer_diameter, top, shoe);
        if let Some(cement_top) = casing.cement_top.filter(|cement_top| *cement_top < shoe) {
            // In its own hole; further up it fills the casing before.
            let from = cement_top.max(this.top);
            ring("cement", Fill::Cement, outer_diameter, this.open_diameter(), from, shoe);
            if let Some(before) = fit.well.casing_above(index).filter(|_| cement_top < this.top) {
                ring("cement", Fill::Cement, outer_diameter, before.inner_diameter, cement_top, this.top.min(before.shoe));
            }
        }
        pipes.push((outer_diameter, top, shoe));
        marks.push(Mark { label: format!("shoe of {}", casing.name), at: depth.from_si(shoe) });
    }
    let hanging = sweep::section_end(fit, section);
    let string = geometry::string(fit, &hanging);
    let parts: Vec<(f64, f64, f64)> = string.iter().map(|piece| (piece.pipe.outer_diameter(), piece.top, piece.bottom)).collect();
    series.push(both("wall of the hole", Role::Wall, &walls));
    if !pipes.is_empty() {
        series.push(both("casing", Role::Casing, &pipes));
    }
    series.push(both("string", Role::Pipe, &parts));
    let bottom = drilled.last().map_or(0.0, |last| last.bottom);
    let name = drilled.last().map_or("", |last| &last.name);
    marks.push(Mark { label: format!("end of {name}"), at: depth.from_si(bottom) });
    Figure {
        title: format!("{}: the well to scale", fit.well.name),
        note: format!("{name} at its end, bit on bottom; widths and lengths each to their own scale"),
        values: Axis { label: "from the middle of the hole".to_owned(), unit: across.symbol.to_owned() },
        along: Axis { label: "measured depth".to_owned(), unit: depth.symbol.to_owned() },
        lie: Lie::Downward,
        bands,
        series,
        marks,
        from_zero: true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Definition: what hangs in the hole is narrower than what stands around it.
    #[test]
    fn law_the_string_lies_within_the_hole() {
        let path = format!("{}/../../examples/ostrick.toml", env!("CARGO_MANIFEST_DIR"));
        let fit = rigwright_wellfile::read(&path, None, &rigwright_wellfile::Disk).unwrap().fit;
        for section in 0..fit.well.sections.len() {
            let figure = well(&fit, section, System::Field);
            let widest = |role: Role, depth: f64| {
                let series = figure.series.iter().find(|series| series.role == role)?;
                let within = |run: &&Vec<(f64, f64)>| run[0].1 <= depth && depth <= run[1].1;
                series.runs.iter().filter(within).map(|run| run[0].0.abs()).reduce(f64::max)
            };
            for depth in [500.0, 2500.0, 5000.0, 9000.0] {
                if let (Some(pipe), Some(wall)) = (widest(Role::Pipe, depth), widest(Role::Wall, depth)) {
                    assert!(pipe < wall, "{section} {depth}: {pipe} {wall}");
                }
            }
            assert!(figure.series.iter().any(|series| series.role == Role::Pipe));
        }
    }
}
