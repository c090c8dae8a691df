//! Which pieces of a tally go in, and their lengths added up in several orders.

use super::RunPiece;
use rigwright_well::{Piece, PieceKind, Tally};

/// Pieces on a page of a tally.
pub const PAGE: usize = 10;
/// Lengths closer than this are one: a tenth of a millimetre is measured by nobody. [m]
const NOTHING: f64 = 1e-4;

/// A subtotal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Page {
    /// How many pieces stand on it.
    pub count: usize,
    /// Their lengths added up. [m]
    pub length: f64,
    /// The same of all pages so far. [m]
    pub total: f64,
}

/// A piece that stays on the racks.
#[derive(Clone, Debug, PartialEq)]
pub struct Spare {
    /// Its number.
    pub number: String,
    /// Length that it would add. [m]
    pub length: f64,
}

/// The lengths of the whole tally, added up in several orders: they must agree.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sums {
    /// Pieces of the tally.
    pub count: usize,
    /// Piece by piece as they go in. [m]
    pub forward: f64,
    /// By pages of ten. [m]
    pub by_pages: f64,
    /// Measured lengths from the last piece back, less all that the threads take. [m]
    pub backward: f64,
    /// Measured lengths. [m]
    pub measured: f64,
    /// What the threads take. [m]
    pub make_up_loss: f64,
}

impl Sums {
    /// Whether they agree.
    pub fn agree(&self) -> bool {
        (self.forward - self.by_pages).abs() < NOTHING && (self.forward - self.backward).abs() < NOTHING
    }
}

/// A piece that goes in.
#[derive(Clone, Debug)]
pub(super) struct Going {
    pub(super) number: String,
    pub(super) kind: PieceKind,
    pub(super) note: String,
    pub(super) measured: (f64, f64),
    pub(super) length: f64,
}

/// The pieces of a sheet.
#[derive(Clone, Debug)]
pub(super) struct Lengths {
    pub(super) going: Vec<Going>,
    pub(super) spares: Vec<Spare>,
    /// Mass of those that go in, where every one has a weight. [kg]
    pub(super) air_mass: Option<f64>,
    all: Vec<(f64, f64)>,
}

fn going(piece: &Piece) -> Going {
    let words = [piece.grade.as_str(), piece.remark.as_str()];
    let note = words.into_iter().filter(|words| !words.is_empty()).collect::<Vec<_>>().join(", ");
    let measured = (piece.length, piece.make_up_loss);
    Going { number: piece.number.clone(), kind: piece.kind, note, measured, length: piece.made_up() }
}

impl Lengths {
    /// As many pieces as the planned length takes; the hanger goes in last. What follows stays on the racks.
    pub(super) fn of_tally(tally: &Tally, planned: f64) -> Lengths {
        let (hangers, pieces): (Vec<&Piece>, Vec<&Piece>) =
            tally.pieces.iter().partition(|piece| piece.kind == PieceKind::Hanger);
        let wanted = planned - hangers.iter().map(|piece| piece.made_up()).sum::<f64>();
        let mut length = 0.0;
        let enough = pieces.iter().take_while(|piece| {
            let begun = length < wanted - NOTHING;
            length += piece.made_up();
            begun
        });
        let count = enough.count();
        let run: Vec<&Piece> = pieces[..count].iter().chain(&hangers).copied().collect();
        let spare = |piece: &&Piece| Spare { number: piece.number.clone(), length: piece.made_up() };
        Lengths {
            going: run.iter().map(|piece| going(piece)).collect(),
            spares: pieces[count..].iter().map(spare).collect(),
            air_mass: run.iter().map(|piece| Some(piece.linear_mass? * piece.made_up())).sum(),
            all: tally.pieces.iter().map(|piece| (piece.length, piece.make_up_loss)).collect(),
        }
    }

    /// Joints of one length, numbered from the shoe up.
    pub(super) fn planned(joint: f64, planned: f64) -> Lengths {
        let count = ((planned - NOTHING) / joint).ceil().max(0.0) as usize;
        let piece = |number: usize| Going {
            number: number.to_string(),
            kind: PieceKind::Joint,
            note: String::new(),
            measured: (joint, 0.0),
            length: joint,
        };
        Lengths { going: (1..=count).map(piece).collect(), spares: Vec::new(), air_mass: None, all: vec![(joint, 0.0); count] }
    }

    /// Length of all that go in. [m]
    pub(super) fn run(&self) -> f64 {
        self.going.iter().map(|piece| piece.length).sum()
    }

    /// Length of the uppermost joint. [m]
    pub(super) fn last_joint(&self) -> Option<f64> {
        self.going.iter().rfind(|piece| piece.kind == PieceKind::Joint).map(|piece| piece.length)
    }

    /// Length below the first collar. [m]
    pub(super) fn shoe_track(&self) -> Option<f64> {
        let collar = self.going.iter().position(|piece| piece.kind == PieceKind::Collar)?;
        Some(self.going[..collar].iter().map(|piece| piece.length).sum())
    }

    /// The whole tally added up in several orders.
    pub(super) fn sums(&self) -> Sums {
        let measured: f64 = self.all.iter().rev().map(|(length, _)| length).sum();
        let make_up_loss: f64 = self.all.iter().rev().map(|(_, loss)| loss).sum();
        let page = |page: &[(f64, f64)]| page.iter().map(|(length, loss)| length - loss).sum::<f64>();
        Sums {
            count: self.all.len(),
            forward: self.all.iter().map(|(length, loss)| length - loss).sum(),
            by_pages: self.all.chunks(PAGE).map(page).sum(),
            backward: measured - make_up_loss,
            measured,
            make_up_loss,
        }
    }
}

/// Subtotals of ten pieces each.
pub(super) fn pages(pieces: &[RunPiece]) -> Vec<Page> {
    let mut total = 0.0;
    pieces
        .chunks(PAGE)
        .map(|page| {
            let length = page.iter().map(|piece| piece.length).sum();
            total += length;
            Page { count: page.len(), length, total }
        })
        .collect()
}
