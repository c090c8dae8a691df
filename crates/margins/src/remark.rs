//! What a paper of pressure control has to say besides its figures: a caution, a reason to refuse, why it is stale.

use crate::Figure;
use rigwright_physics::Kind;

/// Something to be said about a paper, with the figures that it rests on.
#[derive(Clone, Debug, PartialEq)]
pub struct Remark {
    /// What is to be said, without figures that have units.
    pub text: String,
    /// The figures.
    pub figures: Vec<Figure>,
}

impl Remark {
    /// A remark without figures.
    pub fn new(text: impl Into<String>) -> Remark {
        Remark { text: text.into(), figures: Vec::new() }
    }

    /// The remark with a figure.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: f64, kind: Kind) -> Remark {
        self.figures.push(Figure { name, value, kind });
        self
    }
}
