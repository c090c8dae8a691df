//! A still column of mud that gives way to pressure and swells with heat.

use super::State;
use super::mud::Composition;
use crate::circulating::column::{EquivalentMudWeight, Hydrostatic};
use crate::{Kind, Off, Recorder, STANDARD_ATMOSPHERE, numerics};

/// Longest step of the integration over vertical depth: 100 ft is ample, the error grows with its square. [m]
pub const COLUMN_STEP: f64 = 30.48;

/// A temperature at a vertical depth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DepthTemperature {
    /// Vertical depth below the level of the mud. [m]
    pub vertical_depth: f64,
    /// Temperature of the mud. [K]
    pub temperature: f64,
}

/// The top of a column.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColumnTop {
    /// Gauge pressure on the level of the mud. [Pa]
    pub pressure: f64,
    /// Acceleration of free fall. [m/s²]
    pub gravity: f64,
}

/// A point of a still column.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColumnPoint {
    /// Vertical depth below the level of the mud. [m]
    pub vertical_depth: f64,
    /// Temperature. [K]
    pub temperature: f64,
    /// Gauge pressure. [Pa]
    pub pressure: f64,
    /// Density there. [kg/m³]
    pub density: f64,
    /// Equivalent static density from the level to here, without the pressure on top; the density itself at the level. [kg/m³]
    pub equivalent_density: f64,
}

const POINTS: &[(&str, Kind)] = &[
    ("vertical depth", Kind::Depth),
    ("temperature", Kind::Temperature),
    ("pressure", Kind::Pressure),
    ("density", Kind::Density),
    ("equivalent static density", Kind::Density),
];

/// Pressure and density of a still column at the depths of its temperature profile.
///
/// The profile is ordered downwards and runs straight between its points. Each step takes the density at its middle, so
/// the error shrinks with the square of the step. `None` when the profile is empty, starts above the level, is not in
/// order, or leads to a state outside what densities are reckoned for.
pub fn still_column<R: Recorder>(
    mud: &Composition,
    profile: &[DepthTemperature],
    top: ColumnTop,
    rec: &mut R,
) -> Option<Vec<ColumnPoint>> {
    let temperatures: Vec<(f64, f64)> = profile.iter().map(|point| (point.vertical_depth, point.temperature)).collect();
    let first = profile.first()?;
    let in_order = profile.windows(2).all(|pair| pair[0].vertical_depth <= pair[1].vertical_depth);
    if !in_order || first.vertical_depth < 0.0 {
        return None;
    }
    let last_depth = profile.last()?.vertical_depth;
    let temperature = |depth: f64| numerics::interpolate(&temperatures, depth);
    let density =
        |depth: f64, pressure: f64| Some(mud.density(State::new(pressure + STANDARD_ATMOSPHERE, temperature(depth)?)?, &mut Off));
    let (mut depth, mut pressure) = (0.0, top.pressure);
    let mut points = Vec::with_capacity(profile.len());
    for point in profile {
        let steps = ((point.vertical_depth - depth) / COLUMN_STEP).ceil().max(1.0);
        let height = (point.vertical_depth - depth) / steps;
        for _ in 0..steps as usize {
            let half = 0.5 * height;
            let to_middle = Hydrostatic { density: density(depth, pressure)?, vertical_depth: half, gravity: top.gravity };
            let middle = density(depth + half, pressure + Off.take(to_middle))?;
            let whole = Hydrostatic { density: middle, vertical_depth: height, gravity: top.gravity };
            let shown = R::ON && (depth <= 0.0 || depth + height >= last_depth - 1e-6) && height > 0.0;
            if shown {
                let state = State::new(pressure + Off.take(to_middle) + STANDARD_ATMOSPHERE, temperature(depth + half)?)?;
                rec.stretch(|| "step of the column".to_owned(), depth, depth + height);
                mud.density(state, rec);
                rec.take(whole);
            }
            pressure += Off.take(whole);
            depth += height;
        }
        let here = density(point.vertical_depth, pressure)?;
        let equivalent =
            EquivalentMudWeight { pressure: pressure - top.pressure, vertical_depth: point.vertical_depth, gravity: top.gravity };
        let equivalent_density = if point.vertical_depth > 0.0 { Off.take(equivalent) } else { here };
        points.push(ColumnPoint {
            vertical_depth: point.vertical_depth,
            temperature: point.temperature,
            pressure,
            density: here,
            equivalent_density,
        });
    }
    rec.table("still column with its own temperature", POINTS, || {
        let row = |at: &ColumnPoint| vec![at.vertical_depth, at.temperature, at.pressure, at.density, at.equivalent_density];
        points.iter().map(row).collect()
    });
    if let Some(bottom) = points.last().filter(|bottom| bottom.vertical_depth > 0.0) {
        let pressure = bottom.pressure - top.pressure;
        rec.take(EquivalentMudWeight { pressure, vertical_depth: bottom.vertical_depth, gravity: top.gravity });
    }
    Some(points)
}
