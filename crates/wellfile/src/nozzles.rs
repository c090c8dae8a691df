//! Nozzles of a bit as text: `3x20, 1x16`, number and size in 32nds of an inch; a size may carry its own unit.

use rigwright_units::{Kind, parse as parse_quantity};
use std::f64::consts::PI;

/// One 32nd of an inch. [m]
pub(crate) const SIZE: f64 = 0.0254 / 32.0;

/// Number of nozzles and their total area, or what is wrong.
pub(crate) fn parse(text: &str) -> Result<(usize, f64), String> {
    let (mut number, mut area) = (0, 0.0);
    for group in text.split(',') {
        let group = group.trim();
        let Some((count, size)) = group.split_once(['x', '×', 'X']) else {
            return Err(format!("`{group}` has no `x` between number and size"));
        };
        let count: usize = count
            .trim()
            .parse()
            .ok()
            .filter(|count| (1..=20).contains(count))
            .ok_or_else(|| format!("`{}` is not a number of nozzles from 1 to 20", count.trim()))?;
        let size = size.trim();
        let diameter = match size.parse::<u32>() {
            Ok(size) => f64::from(size) * SIZE,
            Err(_) => parse_quantity(size, Kind::Diameter).map_err(|error| error.to_string())?,
        };
        if !(4.0 * SIZE..=64.0 * SIZE).contains(&diameter) {
            return Err(format!("`{size}` is not a nozzle size from 4 to 64 32nds of an inch"));
        }
        number += count;
        area += count as f64 * PI / 4.0 * diameter * diameter;
    }
    Ok((number, area))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn published_total_flow_area() {
        // Three 12s are 0.3313 in2 in every table of nozzle areas (common practice).
        let (number, area) = parse("3x12").unwrap();
        assert_eq!(number, 3);
        assert!((area / (0.0254 * 0.0254) - 0.3313).abs() < 0.00005);
    }

    #[test]
    fn law_sizes_may_mix_and_carry_units() {
        let (number, area) = parse("3x20, 1 x 16").unwrap();
        let alone = parse("3x20").unwrap().1 + parse("1x16").unwrap().1;
        assert_eq!(number, 4);
        assert!((area - alone).abs() < 1e-15);
        assert!((parse("1x1/2 in").unwrap().1 - parse("1x16").unwrap().1).abs() < 1e-15);
    }

    #[test]
    fn law_faults_are_named() {
        for fault in ["", "3", "x12", "3x", "0x12", "3x12,", "3x0", "99x12", "3x900", "3x12 psi", "-1x12", "3x-12"] {
            assert!(parse(fault).is_err(), "{fault}");
        }
    }
}
