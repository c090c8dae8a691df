//! Pressure along a still column of real gas, by marching over vertical depth with a temperature profile.
//!
//! Midpoint rule: the density half a step ahead carries the whole step, so the error falls with the square of
//! the step. Pressures are absolute. Works upward and downward.

use super::gas::{Gas, GasState, ZMethod};
use crate::circulating::column::Hydrostatic;
use crate::{Kind, Off, Recorder};

/// A column of still gas.
#[derive(Clone, Copy)]
pub struct GasColumn<'a> {
    /// The gas.
    pub gas: Gas,
    /// Correlation for the compressibility factor.
    pub method: ZMethod,
    /// Temperature at a vertical depth. [m] to [K]
    pub temperature: &'a dyn Fn(f64) -> f64,
    /// Acceleration of free fall. [m/s²]
    pub gravity: f64,
    /// Number of steps over the column; 20 or more over a whole well.
    pub steps: u32,
}

/// A place in the column.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColumnPoint {
    /// Vertical depth. [m]
    pub vertical_depth: f64,
    /// Absolute pressure. [Pa]
    pub pressure: f64,
}

impl GasColumn<'_> {
    /// The pressure at another vertical depth; `None` where the gas leaves the range of its correlation. [Pa]
    pub fn pressure_at<R: Recorder>(&self, rec: &mut R, start: ColumnPoint, vertical_depth: f64) -> Option<f64> {
        let height = (vertical_depth - start.vertical_depth) / f64::from(self.steps.max(1));
        let mut rows = Vec::new();
        let mut point = start;
        for step in 0..self.steps.max(1) {
            if R::ON {
                rows.push(vec![point.vertical_depth, point.pressure, (self.temperature)(point.vertical_depth)]);
            }
            if step == 0 {
                rec.heading("first step of the gas column");
                point = self.step(rec, point, height)?;
            } else if step + 1 == self.steps {
                rec.heading("last step of the gas column");
                point = self.step(rec, point, height)?;
            } else {
                point = self.step(&mut Off, point, height)?;
            }
        }
        rec.table(
            "the gas column at the start of each step",
            &[("vertical depth", Kind::Depth), ("absolute pressure", Kind::AbsolutePressure), ("temperature", Kind::Temperature)],
            || rows,
        );
        Some(point.pressure)
    }

    fn step<R: Recorder>(&self, rec: &mut R, from: ColumnPoint, height: f64) -> Option<ColumnPoint> {
        let here = self.density(&mut Off, from)?;
        let middle = ColumnPoint {
            vertical_depth: from.vertical_depth + 0.5 * height,
            pressure: from.pressure + 0.5 * here * self.gravity * height,
        };
        let density = self.density(rec, middle)?;
        let added = rec.take(Hydrostatic { density, vertical_depth: height, gravity: self.gravity });
        Some(ColumnPoint { vertical_depth: from.vertical_depth + height, pressure: from.pressure + added })
    }

    fn density<R: Recorder>(&self, rec: &mut R, point: ColumnPoint) -> Option<f64> {
        let state = GasState { pressure: point.pressure, temperature: (self.temperature)(point.vertical_depth) };
        self.gas.density(rec, self.method, state)
    }
}

#[cfg(test)]
mod tests {
    use super::super::gas::MOLAR_GAS_CONSTANT;
    use super::*;
    use crate::{Line, STANDARD_GRAVITY, Working};

    fn geotherm(vertical_depth: f64) -> f64 {
        288.15 + 0.03 * vertical_depth
    }

    fn methane(steps: u32) -> GasColumn<'static> {
        GasColumn { gas: Gas::METHANE, method: ZMethod::Tabulated, temperature: &geotherm, gravity: STANDARD_GRAVITY, steps }
    }

    const BOTTOM: ColumnPoint = ColumnPoint { vertical_depth: 4000.0, pressure: 5e7 };

    #[test]
    fn law_up_and_down_again_is_where_it_began() {
        let column = methane(40);
        let top = column.pressure_at(&mut Off, BOTTOM, 0.0).unwrap();
        let again = column.pressure_at(&mut Off, ColumnPoint { vertical_depth: 0.0, pressure: top }, 4000.0).unwrap();
        assert!((again / BOTTOM.pressure - 1.0).abs() < 1e-6, "{again}");
    }

    #[test]
    fn law_thin_gas_follows_the_barometric_formula() {
        // At a pressure where z is 1 and one temperature: p = p0 exp(-M g h/(R T)).
        let column = GasColumn { temperature: &|_| 350.0, ..methane(20) };
        let start = ColumnPoint { vertical_depth: 3000.0, pressure: 100.0 };
        let top = column.pressure_at(&mut Off, start, 0.0).unwrap();
        let exact = 100.0 * (-Gas::METHANE.molar_mass * STANDARD_GRAVITY * 3000.0 / (MOLAR_GAS_CONSTANT * 350.0)).exp();
        assert!((top / exact - 1.0).abs() < 1e-5, "{top} {exact}");
    }

    #[test]
    fn law_halving_the_step_quarters_the_error() {
        let top = |steps| {
            let column = GasColumn { method: ZMethod::DranchukAbouKassem, ..methane(steps) };
            column.pressure_at(&mut Off, BOTTOM, 0.0).unwrap()
        };
        let finest = top(640);
        let ratio = (top(10) - finest) / (top(20) - finest);
        assert!((3.5..4.5).contains(&ratio), "{ratio}");
    }

    #[test]
    fn law_working_shows_first_and_last_step_and_gives_the_same_figure() {
        let column = methane(20);
        let mut working = Working::default();
        let shown = column.pressure_at(&mut working, BOTTOM, 0.0).unwrap();
        assert_eq!(Some(shown), column.pressure_at(&mut Off, BOTTOM, 0.0));
        let headings = working.lines.iter().filter(|line| matches!(line, Line::Heading(_))).count();
        let rows =
            working.lines.iter().find_map(|line| if let Line::Table { rows, .. } = line { Some(rows.len()) } else { None });
        assert_eq!((headings, rows), (2, Some(20)));
    }
}
