//! A shoe test from its record: the straight line of the pumping, where the record leaves it, and the line that the well's parts
//! would make.
//!
//! Pressures are gauge at surface. A record that never leaves its line is an integrity test, and no fracture pressure.

use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub const RECORDS: &[&FormulaRecord] = &[<PumpInVolume as Formula>::RECORD];

/// Fewest points through which a line is laid before the next is held against it: common practice.
const FEWEST: usize = 4;
/// A point leaves the line when it lies below it by this many standard deviations of the points before.
const DEPARTURE: f64 = 3.0;

formula! {
    /// Volume that a pressure takes while nothing leaks: mud is squeezed, casing swells, open hole widens.
    pub struct PumpInVolume;
    slug "pump-in-volume";
    equation "V = (c V_m + V_c k_c + 2 V_o (1 + ν)/E) p";
    law Homogeneous;
    source "elasticity: compressibility of the mud, swelling of casing that is not cemented, and of a hole in elastic rock";
    given {
        /// pressure pumped up to
        pressure "p" Pressure must NON_NEGATIVE;
        /// compressibility of the mud
        compressibility "c" Compressibility must NON_NEGATIVE;
        /// volume of mud that is pressed
        mud_volume "V_m" Volume must NON_NEGATIVE;
        /// volume inside casing that is free to swell
        casing_volume "V_c" Volume must NON_NEGATIVE default 0.0;
        /// share by which that casing swells per pressure; near nought where it is cemented
        casing_compressibility "k_c" Compressibility must NON_NEGATIVE default 0.0;
        /// volume of open hole
        open_volume "V_o" Volume must NON_NEGATIVE default 0.0;
        /// Poisson's ratio of the rock
        poisson_ratio "ν" Ratio must between(0.0, 0.5) default 0.25;
        /// Young's modulus of the rock
        young_modulus "E" Stress must at_least(1e6) default 2e10;
    }
    /// volume pumped
    gives "V" Volume;
    value |f| {
        let rock = 2.0 * f.open_volume * (1.0 + f.poisson_ratio) / f.young_modulus;
        (f.compressibility * f.mud_volume + f.casing_volume * f.casing_compressibility + rock) * f.pressure
    }
}

/// A point of the record: volume pumped and pressure at surface. [m³, Pa]
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PumpIn {
    /// Volume pumped in all. [m³]
    pub volume: f64,
    /// Pressure at surface. [Pa]
    pub pressure: f64,
}

/// A straight line through points by least squares.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Pressure per volume. [Pa/m³]
    pub stiffness: f64,
    /// Pressure at no volume. [Pa]
    pub intercept: f64,
    /// Standard deviation of the points from it. [Pa]
    pub deviation: f64,
}

impl Line {
    /// Through at least three points that differ in volume.
    pub fn through(points: &[PumpIn]) -> Option<Line> {
        if points.len() < 3 {
            return None;
        }
        let count = points.len() as f64;
        let mean = |value: fn(&PumpIn) -> f64| points.iter().map(value).sum::<f64>() / count;
        let (volume, pressure) = (mean(|point| point.volume), mean(|point| point.pressure));
        let spread: f64 = points.iter().map(|point| (point.volume - volume).powi(2)).sum();
        let both: f64 = points.iter().map(|point| (point.volume - volume) * (point.pressure - pressure)).sum();
        if !(spread > 0.0 && both.is_finite()) {
            return None;
        }
        let stiffness = both / spread;
        let intercept = pressure - stiffness * volume;
        let off: f64 = points.iter().map(|point| (point.pressure - intercept - stiffness * point.volume).powi(2)).sum();
        Some(Line { stiffness, intercept, deviation: (off / (count - 2.0)).sqrt() })
    }

    /// Pressure at a volume. [Pa]
    pub fn at(&self, volume: f64) -> f64 {
        self.intercept + self.stiffness * volume
    }
}

/// What a record tells.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShoeTest {
    /// The line of the points before the pick.
    pub line: Line,
    /// How many points lie on it.
    pub on_line: usize,
    /// Where the record leaves the line; `None` for one that does not: an integrity test.
    pub pick: Option<Pick>,
    /// The highest pressure of the record. [Pa]
    pub highest: f64,
}

/// Where a record leaves its line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pick {
    /// Last pressure on the line: the leak-off pressure, on the safe side. [Pa]
    pub pressure: f64,
    /// Volume pumped then. [m³]
    pub volume: f64,
    /// Pressure on the line at the first volume that is off it: leak-off lies below. [Pa]
    pub at_most: f64,
}

/// Reads a record in the order of pumping. `gauge` is how fine the gauge reads: scatter below it means nothing. `None` for fewer
/// than five points, a volume that does not grow, or a line that does not rise. [Pa]
pub fn shoe_test(record: &[PumpIn], gauge: f64) -> Option<ShoeTest> {
    let grows = record.windows(2).all(|pair| pair[1].volume > pair[0].volume);
    let finite = record.iter().all(|point| point.volume.is_finite() && point.pressure.is_finite());
    if record.len() <= FEWEST || !grows || !finite {
        return None;
    }
    let highest = record.iter().map(|point| point.pressure).fold(f64::NEG_INFINITY, f64::max);
    let mut on_line = FEWEST;
    while on_line < record.len() {
        let line = Line::through(&record[..on_line]).filter(|line| line.stiffness > 0.0)?;
        let slack = DEPARTURE * line.deviation.max(gauge / DEPARTURE);
        let below = |point: &PumpIn| line.at(point.volume) - point.pressure > slack;
        // One reading may be a slip; from two on the record has left its line. The last of a record stands for itself.
        let leaves = below(&record[on_line]) && record.get(on_line + 1).is_none_or(below);
        if leaves {
            let last = record[on_line - 1];
            let at_most = line.at(record[on_line].volume);
            let pick = Pick { pressure: last.pressure, volume: last.volume, at_most };
            return Some(ShoeTest { line, on_line, pick: Some(pick), highest });
        }
        on_line += 1;
    }
    let line = Line::through(record).filter(|line| line.stiffness > 0.0)?;
    Some(ShoeTest { line, on_line, pick: None, highest })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A line of 2 MPa a step that bends over after the eighth point.
    fn record(points: usize, bends_after: usize) -> Vec<PumpIn> {
        let pressure = |index: usize| {
            let (straight, bent) = (index.min(bends_after), index.saturating_sub(bends_after));
            2e6 * straight as f64 + 0.6e6 * bent as f64
        };
        (1..=points).map(|index| PumpIn { volume: 0.04 * index as f64, pressure: pressure(index) }).collect()
    }

    #[test]
    fn law_the_pick_is_the_last_point_of_the_line() {
        let test = shoe_test(&record(12, 8), 5e4).unwrap();
        let pick = test.pick.unwrap();
        assert_eq!(test.on_line, 8);
        assert!((pick.pressure - 16e6).abs() < 1.0 && (pick.at_most - 18e6).abs() < 1.0);
        assert!((test.line.stiffness / (2e6 / 0.04) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn law_a_record_without_a_bend_is_an_integrity_test() {
        let test = shoe_test(&record(10, 10), 5e4).unwrap();
        assert_eq!(test.pick, None);
        assert!((test.highest - 20e6).abs() < 1.0);
    }

    #[test]
    fn law_scatter_within_the_gauge_and_one_slip_are_no_departure() {
        let mut scattered = record(10, 10);
        for (index, point) in scattered.iter_mut().enumerate() {
            point.pressure += if index % 2 == 0 { 2e4 } else { -2e4 };
        }
        scattered[6].pressure -= 5e5;
        assert_eq!(shoe_test(&scattered, 5e4).unwrap().pick, None);
    }

    #[test]
    fn rejects_what_is_no_record() {
        assert_eq!(shoe_test(&record(4, 4), 5e4), None);
        let mut back = record(8, 8);
        back[5].volume = back[4].volume;
        assert_eq!(shoe_test(&back, 5e4), None);
        let flat: Vec<PumpIn> = record(8, 8).iter().map(|point| PumpIn { pressure: 1e6, ..*point }).collect();
        assert_eq!(shoe_test(&flat, 5e4), None);
    }
}
