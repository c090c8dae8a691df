//! The gas that a kick would bring, tabulated once a fit.

use rigwright_well::Fit;

/// What the kick questions read in every situation of a fit.
pub struct Prepared {}

impl Prepared {
    /// Prepares a fit.
    pub fn new(_fit: &Fit) -> Prepared {
        Prepared {}
    }
}
