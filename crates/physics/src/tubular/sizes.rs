//! What the trade's names stand for: grades, sizes and nominal weights. The nominal weight is only a name; the
//! true weight is the user's to give.

use crate::field::{INCH, POUND_PER_FOOT, PSI};
use crate::{Formula, FormulaRecord, formula};

/// The formulas of this part.
pub(super) const RECORDS: &[&FormulaRecord] = &[CasingDrift::RECORD];

/// Smallest yield strength by grade. [ksi]
///
/// *Source*: drill pipe API Spec 5D, 2nd ed. 1991; casing API Spec 5CT (from memory).
const GRADES: &[(&str, f64)] = &[
    ("E75", 75.0),
    ("X95", 95.0),
    ("G105", 105.0),
    ("S135", 135.0),
    ("H40", 40.0),
    ("J55", 55.0),
    ("K55", 55.0),
    ("N80", 80.0),
    ("L80", 80.0),
    ("C90", 90.0),
    ("T95", 95.0),
    ("P110", 110.0),
    ("Q125", 125.0),
];

/// Drill pipe: outside diameter [in], nominal weight [lb/ft], inside diameter [in].
///
/// *Source*: API RP 7G, 16th ed. 1998, table 1 (from memory); each inside diameter reproduces two printed strengths.
const DRILL_PIPE: &[(f64, f64, f64)] = &[
    (2.375, 4.85, 1.995),
    (2.375, 6.65, 1.815),
    (2.875, 6.85, 2.441),
    (2.875, 10.4, 2.151),
    (3.5, 9.5, 2.992),
    (3.5, 13.3, 2.764),
    (3.5, 15.5, 2.602),
    (4.0, 11.85, 3.476),
    (4.0, 14.0, 3.34),
    (4.0, 15.7, 3.24),
    (4.5, 13.75, 3.958),
    (4.5, 16.6, 3.826),
    (4.5, 20.0, 3.64),
    (4.5, 22.82, 3.5),
    (5.0, 16.25, 4.408),
    (5.0, 19.5, 4.276),
    (5.0, 25.6, 4.0),
    (5.5, 19.2, 4.892),
    (5.5, 21.9, 4.778),
    (5.5, 24.7, 4.67),
    (6.625, 25.2, 5.965),
    (6.625, 27.7, 5.901),
];

/// Casing: outside diameter [in], nominal weight [lb/ft], wall [in].
///
/// *Source*: API Spec 5CT, table of sizes (from memory).
const CASING: &[(f64, f64, f64)] = &[
    (4.5, 9.5, 0.205),
    (4.5, 10.5, 0.224),
    (4.5, 11.6, 0.25),
    (4.5, 13.5, 0.29),
    (4.5, 15.1, 0.337),
    (5.0, 11.5, 0.22),
    (5.0, 13.0, 0.253),
    (5.0, 15.0, 0.296),
    (5.0, 18.0, 0.362),
    (5.0, 21.4, 0.437),
    (5.0, 23.2, 0.478),
    (5.5, 14.0, 0.244),
    (5.5, 15.5, 0.275),
    (5.5, 17.0, 0.304),
    (5.5, 20.0, 0.361),
    (5.5, 23.0, 0.415),
    (6.625, 20.0, 0.288),
    (6.625, 24.0, 0.352),
    (6.625, 28.0, 0.417),
    (6.625, 32.0, 0.475),
    (7.0, 17.0, 0.231),
    (7.0, 20.0, 0.272),
    (7.0, 23.0, 0.317),
    (7.0, 26.0, 0.362),
    (7.0, 29.0, 0.408),
    (7.0, 32.0, 0.453),
    (7.0, 35.0, 0.498),
    (7.0, 38.0, 0.54),
    (7.625, 24.0, 0.3),
    (7.625, 26.4, 0.328),
    (7.625, 29.7, 0.375),
    (7.625, 33.7, 0.43),
    (7.625, 39.0, 0.5),
    (7.625, 42.8, 0.562),
    (7.625, 45.3, 0.595),
    (7.625, 47.1, 0.625),
    (8.625, 24.0, 0.264),
    (8.625, 28.0, 0.304),
    (8.625, 32.0, 0.352),
    (8.625, 36.0, 0.4),
    (8.625, 40.0, 0.45),
    (8.625, 44.0, 0.5),
    (8.625, 49.0, 0.557),
    (9.625, 32.3, 0.312),
    (9.625, 36.0, 0.352),
    (9.625, 40.0, 0.395),
    (9.625, 43.5, 0.435),
    (9.625, 47.0, 0.472),
    (9.625, 53.5, 0.545),
    (9.625, 58.4, 0.595),
    (10.75, 32.75, 0.279),
    (10.75, 40.5, 0.35),
    (10.75, 45.5, 0.4),
    (10.75, 51.0, 0.45),
    (10.75, 55.5, 0.495),
    (10.75, 60.7, 0.545),
    (10.75, 65.7, 0.595),
    (11.75, 42.0, 0.333),
    (11.75, 47.0, 0.375),
    (11.75, 54.0, 0.435),
    (11.75, 60.0, 0.489),
    (13.375, 48.0, 0.33),
    (13.375, 54.5, 0.38),
    (13.375, 61.0, 0.43),
    (13.375, 68.0, 0.48),
    (13.375, 72.0, 0.514),
    (16.0, 65.0, 0.375),
    (16.0, 75.0, 0.438),
    (16.0, 84.0, 0.495),
    (18.625, 87.5, 0.435),
    (20.0, 94.0, 0.438),
    (20.0, 106.5, 0.5),
    (20.0, 133.0, 0.635),
];

/// Heavy-weight pipe, range 2: outside diameter [in], inside diameter [in], weight [lb/ft], connection.
///
/// *Source*: API Spec 7-1 (from memory); tension and torsion of the tube follow from these at a yield of 55 ksi.
const HEAVY_WEIGHT: &[(f64, f64, f64, &str)] =
    &[(3.5, 2.0625, 25.3, "NC38"), (4.0, 2.5625, 29.7, "NC40"), (4.5, 2.75, 41.0, "NC46"), (5.0, 3.0, 49.3, "NC50")];

/// Drill collars: outside diameter [in], inside diameter [in], weight [lb/ft], connection.
///
/// *Source*: API Spec 7, list of collars. It prints 47 lb/ft for the NC35-47, which is the weight with a bore of 2 1/4 in.
const COLLARS: &[(f64, f64, f64, &str)] = &[
    (3.125, 1.25, 22.0, "NC23"),
    (3.5, 1.5, 27.0, "NC26"),
    (4.125, 2.0, 34.0, "NC31"),
    (4.75, 2.0, 49.6, "NC35"),
    (5.0, 2.25, 54.0, "NC38"),
    (6.0, 2.25, 83.0, "NC44"),
    (6.0, 2.8125, 76.0, "NC44"),
    (6.25, 2.25, 91.0, "NC44"),
    (6.25, 2.8125, 84.0, "NC46"),
    (6.5, 2.25, 100.0, "NC46"),
];

/// Smallest yield strength of a grade of drill pipe or casing, such as "S-135" or "L80". [Pa]
pub fn yield_strength(grade: &str) -> Option<f64> {
    let name = plain(grade);
    GRADES.iter().find(|row| row.0 == name).map(|row| row.1 * 1000.0 * PSI)
}

/// Names of the grades, without hyphens.
pub fn grades() -> impl Iterator<Item = &'static str> {
    GRADES.iter().map(|row| row.0)
}

/// Inside diameter of new drill pipe by outside diameter [m] and nominal weight [kg/m]. [m]
pub fn drill_pipe_inside_diameter(outer_diameter: f64, nominal: f64) -> Option<f64> {
    find(DRILL_PIPE, outer_diameter, nominal).map(|row| row.2 * INCH)
}

/// Drill pipe of the trade as the yard names it: outside diameter [in], nominal weight [lb/ft], inside diameter [in].
pub fn drill_pipe_sizes() -> impl Iterator<Item = (f64, f64, f64)> {
    DRILL_PIPE.iter().copied()
}

/// Heavy-weight pipe as the yard names it: outside diameter [in], inside diameter [in], weight [lb/ft], connection.
pub fn heavy_weight_sizes() -> impl Iterator<Item = (f64, f64, f64, &'static str)> {
    HEAVY_WEIGHT.iter().copied()
}

/// Drill collars as the yard names them: outside diameter [in], inside diameter [in], weight [lb/ft], connection.
pub fn collar_sizes() -> impl Iterator<Item = (f64, f64, f64, &'static str)> {
    COLLARS.iter().copied()
}

/// Inside diameter of casing by outside diameter [m] and nominal weight [kg/m]. [m]
pub fn casing_inside_diameter(outer_diameter: f64, nominal: f64) -> Option<f64> {
    find(CASING, outer_diameter, nominal).map(|row| (row.0 - 2.0 * row.2) * INCH)
}

/// Nominal weights [kg/m] and inside diameters [m] of casing of this outside diameter, the lightest first. [m]
pub fn casing_weights(outer_diameter: f64) -> impl Iterator<Item = (f64, f64)> {
    let rows = CASING.iter().filter(move |row| (row.0 * INCH - outer_diameter).abs() < 2e-4);
    rows.map(|row| (row.1 * POUND_PER_FOOT, (row.0 - 2.0 * row.2) * INCH))
}

/// A row by size and nominal weight. Catalogues round both, in either system: a fifth of a millimetre and half a
/// per cent tell the rows apart and bring rounded ones together.
fn find(table: &[(f64, f64, f64)], outer_diameter: f64, nominal: f64) -> Option<(f64, f64, f64)> {
    let same = |row: &&(f64, f64, f64)| {
        let weight = row.1 * POUND_PER_FOOT;
        (row.0 * INCH - outer_diameter).abs() < 2e-4 && (weight - nominal).abs() < 5e-3 * weight
    };
    table.iter().find(same).copied()
}

/// A name without spaces and hyphens, in capitals.
pub(super) fn plain(name: &str) -> String {
    name.chars().filter(|c| !c.is_whitespace() && *c != '-').flat_map(char::to_uppercase).collect()
}

formula! {
    /// Drift diameter of casing: the largest tool that is sure to pass.
    ///
    /// 1/8 in below the inside diameter under 9 5/8 in casing, 5/32 in from there to 13 3/8 in, 3/16 in above.
    /// Special drifts exist and are larger: enter them.
    pub struct CasingDrift;
    slug "casing-drift";
    equation "d_drift = d - 1/8 in (D < 9 5/8), d - 5/32 in (to 13 3/8), d - 3/16 in (above)";
    law Empirical("in");
    source "API Spec 5CT (from memory)";
    given {
        /// outside diameter
        outer_diameter "D" Diameter must NON_NEGATIVE valid between(4.5 * INCH, 20.0 * INCH);
        /// inside diameter
        inner_diameter "d" Diameter must NON_NEGATIVE;
    }
    /// drift diameter
    gives "d_drift" Diameter;
    value |f| {
        // A thousandth of an inch of grace, so that a size rounded in millimetres finds its own step.
        let outer = f.outer_diameter / INCH;
        let less = if outer < 9.624 {
            0.125
        } else if outer < 13.376 {
            0.156_25
        } else {
            0.1875
        };
        f.inner_diameter - less * INCH
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// API Spec 5D, 2nd ed. 1991, and 5CT (from memory).
    #[test]
    fn published_grades() {
        for (grade, psi) in [("E-75", 75e3), ("s135", 135e3), ("L 80", 80e3), ("K-55", 55e3), ("Q125", 125e3)] {
            let found = yield_strength(grade).unwrap();
            assert!((found / PSI - psi).abs() < 1e-6 * psi, "{grade}");
        }
        assert_eq!(yield_strength("Z999"), None);
    }

    /// Plain pipe of the listed wall weighs between 5 % less and 1.5 % more than the nominal weight says.
    #[test]
    fn law_casing_weighs_about_its_name() {
        for &(outer, nominal, wall) in CASING {
            let plain_end = 10.69 * (outer - wall) * wall;
            assert!(plain_end < 1.015 * nominal && plain_end > 0.95 * nominal, "{outer} {nominal}");
        }
    }

    /// Steel of 490 lb/ft³ weighs within 1.2 lb/ft of every collar of the list (Lyons, Standard Handbook, 1996, table 4-73).
    #[test]
    fn law_collars_weigh_what_their_size_says() {
        for (outer, inner, weight, _) in collar_sizes() {
            let steel = 490.0 / 144.0 * std::f64::consts::FRAC_PI_4 * (outer * outer - inner * inner);
            assert!((steel - weight).abs() < 1.2, "{outer} {inner}: {steel}");
        }
    }

    /// Tension of the tube at 55 ksi as the makers print it, within 0.05 % (API Spec 7-1, from memory).
    #[test]
    fn published_tension_of_heavy_weight_tubes() {
        for ((outer, inner, ..), printed) in heavy_weight_sizes().zip([345_400.0, 407_550.0, 548_075.0, 691_185.0]) {
            let tension: f64 = 55_000.0 * std::f64::consts::FRAC_PI_4 * (outer * outer - inner * inner);
            assert!((tension - printed).abs() < 5e-4 * printed, "{outer}: {tension}");
        }
    }

    #[test]
    fn law_every_row_is_found_by_its_own_name_only() {
        for (table, name) in [(DRILL_PIPE, "drill pipe"), (CASING, "casing")] {
            for row in table {
                let found = table.iter().filter(|other| find(&[**other], row.0 * INCH, row.1 * POUND_PER_FOOT).is_some());
                assert_eq!(found.count(), 1, "{name} {row:?}");
            }
        }
        let metric = drill_pipe_inside_diameter(0.127, 29.0);
        assert!((metric.unwrap() - 4.276 * INCH).abs() < 1e-9, "19.50 lb/ft is 29.0 kg/m");
        assert_eq!(casing_inside_diameter(0.127, 29.0), None);
    }
}
