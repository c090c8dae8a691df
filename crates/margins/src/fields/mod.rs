//! Fields along the well for one situation, and what is prepared for them once a fit.

pub(crate) mod circuit;
pub mod cleaning;
pub mod column;
pub mod drag;
pub mod flow;
pub mod heat;
pub mod influx;
pub mod open_hole;
mod per_section;
pub mod rheology;
pub mod runs;
pub(crate) mod surge;

pub use per_section::PerSection;
