//! The compressibility factor of Dranchuk and Abou-Kassem from a table, for sweeps.
//!
//! By corresponding states one table over reduced pressure and temperature serves every gas, so it is made
//! once in a run, from the solved correlation itself: nothing is stored, and nothing has to be kept in step.
//! Between the nodes a cubic through four neighbours each way keeps value and slope continuous.

use std::sync::LazyLock;

use super::gas::{HIGHEST_REDUCED_PRESSURE, HIGHEST_REDUCED_TEMPERATURE, LOWEST_REDUCED_TEMPERATURE, ZDranchukAbouKassem};
use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[<ZTabulated as Formula>::RECORD];

formula! {
    /// Compressibility factor of natural gas after Dranchuk and Abou-Kassem, read from a table of it.
    ///
    /// Within 3 parts in 10,000 of the solved correlation, which itself is good to 1 part in 100; outside the
    /// table (reduced pressure above 40, reduced temperature below 1.15 or above 4) it is solved. A reading
    /// takes a tenth of the time of solving.
    pub struct ZTabulated;
    slug "z-factor-tabulated";
    equation "z = z(p_r, T_r), bicubic between 64 x 32 values of z-factor-dranchuk-abou-kassem";
    law Homogeneous;
    source "interpolation of Dranchuk and Abou-Kassem, J. Can. Pet. Tech. 14 (July 1975) 34";
    given {
        /// reduced pressure
        reduced_pressure "p_r" Ratio must between(0.0, HIGHEST_REDUCED_PRESSURE) valid between(0.0, 30.0);
        /// reduced temperature
        reduced_temperature "T_r" Ratio must between(LOWEST_REDUCED_TEMPERATURE, HIGHEST_REDUCED_TEMPERATURE) valid between(LOWEST_REDUCED_TEMPERATURE, 3.0);
    }
    /// compressibility factor
    gives "z" Ratio;
    value |f| read(f.reduced_pressure, f.reduced_temperature)
}

/// Values of the factor at equal steps of ln(1 + p_r) and 1/T_r, in which it bends least.
struct Table {
    values: Box<[f64]>,
    /// Steps of ln(1 + p_r) in one.
    columns_in_one: f64,
    /// Steps of 1/T_r in one.
    rows_in_one: f64,
}

/// Steps of ln(1 + p_r) inside the table.
const COLUMNS: usize = 64;
/// Steps of 1/T_r inside the table.
const ROWS: usize = 32;
/// Nodes in a row: one more on either side for the cubic, and both ends.
const STRIDE: usize = COLUMNS + 3;
/// Reduced pressure at the end of the table.
const PRESSURE_END: f64 = 40.0;
/// Reduced temperature at its cold edge.
const COLD_EDGE: f64 = 1.15;
/// Reduced temperature at its hot edge.
const HOT_EDGE: f64 = 4.0;

static TABLE: LazyLock<Table> = LazyLock::new(Table::new);

impl Table {
    fn new() -> Table {
        let column_step = PRESSURE_END.ln_1p() / COLUMNS as f64;
        let row_step = (1.0 / COLD_EDGE - 1.0 / HOT_EDGE) / ROWS as f64;
        let mut values = vec![1.0; STRIDE * (ROWS + 3)].into_boxed_slice();
        for row in 0..ROWS + 3 {
            let inverse = 1.0 / HOT_EDGE + (row as f64 - 1.0) * row_step;
            let nodes = &mut values[row * STRIDE..(row + 1) * STRIDE];
            for (column, node) in nodes.iter_mut().enumerate().skip(1) {
                let reduced_pressure = ((column as f64 - 1.0) * column_step).exp_m1();
                *node = ZDranchukAbouKassem { reduced_pressure, reduced_temperature: 1.0 / inverse }.value();
            }
            // Beyond zero pressure there is no gas: the curve is carried on by its last three nodes.
            nodes[0] = 3.0 * (nodes[1] - nodes[2]) + nodes[3];
        }
        Table { values, columns_in_one: 1.0 / column_step, rows_in_one: 1.0 / row_step }
    }

    fn at(&self, reduced_pressure: f64, reduced_temperature: f64) -> f64 {
        // The logarithm of a sum costs a third of `ln_1p`, and what it loses near nought is far below the table's own error.
        let (column, columns) = place((1.0 + reduced_pressure).ln() * self.columns_in_one, COLUMNS);
        let (row, rows) = place((1.0 / reduced_temperature - 1.0 / HOT_EDGE) * self.rows_in_one, ROWS);
        let along = |offset: usize| {
            let start = (row + offset) * STRIDE + column;
            match self.values.get(start..start + 4) {
                Some([a, b, c, d]) => a * columns[0] + b * columns[1] + c * columns[2] + d * columns[3],
                // `place` keeps inside the table.
                _ => 1.0,
            }
        };
        along(0) * rows[0] + along(1) * rows[1] + along(2) * rows[2] + along(3) * rows[3]
    }
}

/// The first of the four nodes around a place counted in steps, and their weights (Catmull and Rom's cubic).
fn place(steps: f64, count: usize) -> (usize, [f64; 4]) {
    let cell = (steps as usize).min(count - 1);
    let s = steps - cell as f64;
    let (s2, s3) = (s * s, s * s * s);
    let weights =
        [0.5 * (-s + 2.0 * s2 - s3), 0.5 * (2.0 - 5.0 * s2 + 3.0 * s3), 0.5 * (s + 4.0 * s2 - 3.0 * s3), 0.5 * (s3 - s2)];
    (cell, weights)
}

fn read(reduced_pressure: f64, reduced_temperature: f64) -> f64 {
    if reduced_pressure <= PRESSURE_END && (COLD_EDGE..=HOT_EDGE).contains(&reduced_temperature) {
        TABLE.at(reduced_pressure, reduced_temperature)
    } else {
        ZDranchukAbouKassem { reduced_pressure, reduced_temperature }.value()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_table_agrees_with_what_it_was_made_from() {
        let mut worst = 0.0f64;
        for step in 0..200 {
            let reduced_temperature = COLD_EDGE + 1e-9 + (HOT_EDGE - COLD_EDGE) * (f64::from(step) / 200.0).powi(2);
            for step in 0..400 {
                let reduced_pressure = PRESSURE_END * (f64::from(step) / 399.0).powi(2);
                let solved = ZDranchukAbouKassem { reduced_pressure, reduced_temperature }.value();
                let read = ZTabulated { reduced_pressure, reduced_temperature }.value();
                worst = worst.max((read / solved - 1.0).abs());
            }
        }
        assert!(worst < 3e-4, "{worst}");
    }

    #[test]
    fn law_table_is_exactly_one_at_no_pressure() {
        for reduced_temperature in [1.05, 1.2, 1.7, 2.9, 4.0] {
            let z = ZTabulated { reduced_pressure: 0.0, reduced_temperature }.value();
            assert!((z - 1.0).abs() < 1e-14, "{z}");
        }
    }
}
