//! The tally of a casing: what lies on the racks, piece by piece, as it was measured.

/// Lengths of casing by range class, ends included: API Spec 5CT, ranges 1 to 3 (16 to 25, 25 to 34, 34 to 48 ft). [m]
pub const RANGES: [(f64, f64); 3] = [(16.0 * FOOT, 25.0 * FOOT), (25.0 * FOOT, 34.0 * FOOT), (34.0 * FOOT, 48.0 * FOOT)];

/// A foot. [m]
const FOOT: f64 = 0.3048;

/// What a piece is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PieceKind {
    /// The shoe at the lower end.
    Shoe,
    /// A joint of casing.
    Joint,
    /// A float or landing collar.
    Collar,
    /// A joint cut short, or another piece to space out with.
    Pup,
    /// The hanger at the upper end, which goes in last.
    Hanger,
}

impl PieceKind {
    /// Every kind, from the lower end up.
    pub const ALL: [PieceKind; 5] = [PieceKind::Shoe, PieceKind::Joint, PieceKind::Collar, PieceKind::Pup, PieceKind::Hanger];

    /// Its word in a tally.
    pub const fn word(self) -> &'static str {
        match self {
            PieceKind::Shoe => "shoe",
            PieceKind::Joint => "joint",
            PieceKind::Collar => "collar",
            PieceKind::Pup => "pup",
            PieceKind::Hanger => "hanger",
        }
    }
}

/// A piece of the tally.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Its number, as it is painted on it.
    pub number: String,
    /// What it is.
    pub kind: PieceKind,
    /// Length as measured: overall, or made up. [m]
    pub length: f64,
    /// What the thread takes of it when it is made up; nought for lengths that are measured made up. [m]
    pub make_up_loss: f64,
    /// Weight per length as written. [kg/m]
    pub linear_mass: Option<f64>,
    /// Grade as written.
    pub grade: String,
    /// What else was written of it.
    pub remark: String,
}

impl Piece {
    /// Length that it adds to the string. [m]
    pub fn made_up(&self) -> f64 {
        self.length - self.make_up_loss
    }
}

/// A tally, in the order of running: the first goes in first.
#[derive(Clone, Debug, PartialEq)]
pub struct Tally {
    /// Whether lengths were measured overall, thread included; otherwise they are made up.
    pub overall: bool,
    /// The pieces.
    pub pieces: Vec<Piece>,
}

#[cfg(test)]
mod tests {
    use super::*;

    /// API Spec 5CT as its ranges are quoted in metres: 4.88 to 7.62, 7.62 to 10.36, 10.36 to 14.63.
    #[test]
    fn published_range_classes_in_metres() {
        let printed = [(4.88, 7.62), (7.62, 10.36), (10.36, 14.63)];
        for ((low, high), (least, most)) in RANGES.iter().zip(printed) {
            assert!((low - least).abs() <= 0.005 && (high - most).abs() <= 0.005, "{low} {high}");
        }
    }
}
