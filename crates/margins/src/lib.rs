//! From a fit of well and rig to a review: the sweep over situations, the fields along the well, the questions
//! of the five systems with their limits, the governing answers, and remedies found by solving.
//!
//! Data runs down: [`sweep`] derives situations; a [`Scene`] holds one with the fields that its questions share;
//! a [`Question`] turns a scene into an [`Answer`]; [`Review`] keeps the governing answer of each question and
//! section; `remedy` turns the knobs of the entry table one by one, [`propose`](mod@propose) those of a job together. No file, no clock, no printing.

mod answer;
mod course;
pub mod due;
pub mod fields;
pub mod geometry;
pub mod pictures;
pub mod programme;
pub mod propose;
mod question;
mod remark;
mod remedy;
mod review;
mod scene;
pub mod steps;
pub mod sweep;
mod window;

pub mod circulating;
pub mod control;
pub mod hoisting;
pub mod kill_sheet;
pub mod limits_card;
pub mod line_record;
pub mod power;
pub mod rotating;
pub mod running_sheet;
pub mod trip_sheet;

pub use answer::{Answer, Figure, Judged, Limit, Place, Verdict, worst};
pub use course::course;
pub use question::{Question, Scope, System};
pub use remark::Remark;
pub use remedy::{Remedy, Spoilt};
pub use review::{Address, Asked, Explained, Review, explain};
pub use scene::{Basis, Scene};
pub use window::{WindowRow, window};

/// The five systems, in the order of the sheet.
pub static SYSTEMS: [&System; 5] = [&hoisting::SYSTEM, &rotating::SYSTEM, &circulating::SYSTEM, &power::SYSTEM, &control::SYSTEM];

/// Every question, in the order of the sheet.
pub fn questions() -> impl Iterator<Item = &'static Question> {
    SYSTEMS.iter().flat_map(|system| system.questions())
}

/// The question of this slug.
pub fn question(slug: &str) -> Option<&'static Question> {
    questions().find(|question| question.slug == slug)
}

/// An example well of the repository with its own rig, for tests.
#[cfg(test)]
fn example(name: &str) -> rigwright_well::Fit {
    let file = format!("{}/../../examples/{name}.toml", env!("CARGO_MANIFEST_DIR"));
    match rigwright_wellfile::read(&file, None, &rigwright_wellfile::Disk) {
        Ok(loaded) => loaded.fit,
        Err(findings) => panic!("{findings:?}"),
    }
}

/// What moving mud lifts of the string above a depth, by hand for tests: π/4 D D_h g_f L, ring by ring. [N]
#[cfg(test)]
fn lift_above(scene: &Scene, depth: f64) -> f64 {
    let flow = scene.flow(&mut rigwright_physics::Off);
    let lift = |piece: &fields::flow::Piece| {
        let ring = &piece.annulus;
        let length = (ring.bottom.min(depth) - ring.top).max(0.0);
        std::f64::consts::FRAC_PI_4 * ring.pipe_diameter * ring.hole_diameter * piece.gradient * length
    };
    flow.pieces.iter().map(lift).sum()
}
