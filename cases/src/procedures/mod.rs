//! Marches, fits and chains of formulas that a published example goes through, by name.
//!
//! A procedure only reads inputs, calls `physics` in the order of the example and names what comes out.
//! It holds no formula and no constant of its own.

mod circulating;
mod control;
mod gas;
mod hoisting;
mod plan;
mod power;
mod rotating;
mod site;
mod string;
mod trajectory;
mod trip;

use rigwright_units::Kind;

use crate::Given;

/// One way through `physics`.
#[derive(Debug)]
pub struct Procedure {
    /// Kebab case, unique.
    pub name: &'static str,
    /// Which part of `physics` it walks through, as in the path of the module: `circulating`.
    pub system: &'static str,
    /// Reads the inputs, computes, and names what comes out.
    pub run: fn(&Given) -> Outcome,
}

/// What comes out of a procedure, or why nothing does.
pub type Outcome = Result<Vec<Output>, String>;

/// One named figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Output {
    /// Name, snake case.
    pub name: &'static str,
    /// What it is.
    pub kind: Kind,
    /// How much. [SI]
    pub value: f64,
}

/// Names a figure. [SI]
pub fn output(name: &'static str, kind: Kind, value: f64) -> Output {
    Output { name, kind, value }
}

/// Every procedure.
pub fn procedures() -> impl Iterator<Item = &'static Procedure> {
    [
        trajectory::PROCEDURES,
        hoisting::PROCEDURES,
        rotating::PROCEDURES,
        circulating::PROCEDURES,
        power::PROCEDURES,
        control::PROCEDURES,
        gas::PROCEDURES,
        string::PROCEDURES,
        trip::PROCEDURES,
        plan::PROCEDURES,
        site::PROCEDURES,
    ]
    .into_iter()
    .flatten()
}

/// The procedure of this name.
pub fn procedure(name: &str) -> Option<&'static Procedure> {
    procedures().find(|procedure| procedure.name == name)
}
