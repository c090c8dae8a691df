//! Views as data: the sheet of a review, a proposal and the working of a figure as text, everything as JSON, figures as SVG,
//! papers as values that can be typeset.
//!
//! A view never computes: what is not in a review, a working or a finding is not shown. Nothing here prints, reads a
//! file or knows the clock; styled [`Text`](text::Text) and plain strings go out, and the program does the rest.

mod due;
pub mod equation;
pub mod figure;
pub mod formulas;
mod grid;
pub mod json;
mod kill_sheet;
mod limits_card;
pub mod paper;
mod proposal;
mod rigs;
mod sheet;
mod steps;
mod subject;
mod substitute;
pub mod text;
mod trip_sheet;
pub mod view;
pub mod working;

pub use due::due;
pub use kill_sheet::{Leaf, kill_sheet, remark, weight_step};
pub use limits_card::limits_card;
pub use proposal::{Proposed, proposal};
pub use rigs::side_by_side;
pub use sheet::sheet;
pub use steps::{methods, needs, steps};
pub use subject::Subject;
pub use trip_sheet::trip_sheet;
pub use working::{explained, workings};
