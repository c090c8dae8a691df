//! What the trade's names stand for, as far as files need it: yield of a grade, drift of a casing.

/// Smallest yield strength by grade. [ksi]
///
/// *Source*: drill pipe API Spec 5D, 2nd ed. 1991; casing API Spec 5CT (from memory).
const GRADES: &[(&str, f64)] = &[
    ("E-75", 75.0),
    ("X-95", 95.0),
    ("G-105", 105.0),
    ("S-135", 135.0),
    ("H-40", 40.0),
    ("J-55", 55.0),
    ("K-55", 55.0),
    ("N-80", 80.0),
    ("L-80", 80.0),
    ("C-90", 90.0),
    ("T-95", 95.0),
    ("P-110", 110.0),
    ("Q-125", 125.0),
];
const INCH: f64 = 0.0254;
const KSI: f64 = 453.592_37 * 9.806_65 / (INCH * INCH);

/// Names of the grades.
pub(crate) fn grades() -> impl Iterator<Item = &'static str> {
    GRADES.iter().map(|(name, _)| *name)
}

/// Yield strength of a grade. [Pa]
pub(crate) fn yield_strength(grade: &str) -> Option<f64> {
    let plain = |name: &str| name.chars().filter(char::is_ascii_alphanumeric).collect::<String>().to_uppercase();
    GRADES.iter().find(|(name, _)| plain(name) == plain(grade)).map(|(_, ksi)| ksi * KSI)
}

/// Drift of casing. [m]
///
/// *Source*: API Spec 5CT drift mandrels (from memory).
pub(crate) fn drift(outer_diameter: f64, inner_diameter: f64) -> f64 {
    let outer = outer_diameter / INCH;
    let less = if outer < 9.624 {
        0.125
    } else if outer < 13.376 {
        0.156_25
    } else {
        0.1875
    };
    inner_diameter - less * INCH
}
