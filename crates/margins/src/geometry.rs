//! What stands where in the hole in one situation: hole pieces, string pieces and the annuli between them.

use rigwright_well::{Casing, Fit, Hung, Joint, Part, PartKind, Situation};
use smallvec::SmallVec;

/// A stretch of hole of one diameter. Depths are measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HolePiece {
    /// Upper end. [m]
    pub top: f64,
    /// Lower end. [m]
    pub bottom: f64,
    /// Diameter of the bore or of the open hole. [m]
    pub diameter: f64,
    /// Whether it is cased.
    pub cased: bool,
    /// Whether it is the riser of a floating rig.
    pub riser: bool,
}

/// A stretch of like pipe. Depths are measured.
#[derive(Clone, Copy, Debug)]
pub struct PipePiece<'a> {
    /// Upper end. [m]
    pub top: f64,
    /// Lower end. [m]
    pub bottom: f64,
    /// What it is made of.
    pub pipe: Pipe<'a>,
    /// Whether it stands empty inside, on its floats.
    pub empty: bool,
}

/// What a piece of string is made of.
#[derive(Clone, Copy, Debug)]
pub enum Pipe<'a> {
    /// A part of the drill string.
    Part(&'a Part),
    /// Casing or liner on its way in.
    Casing(&'a Casing),
}

impl<'a> Pipe<'a> {
    /// What it is called.
    pub fn name(&self) -> &'a str {
        match self {
            Pipe::Part(part) => &part.name,
            Pipe::Casing(casing) => &casing.name,
        }
    }

    /// Outside diameter of the body. [m]
    pub fn outer_diameter(&self) -> f64 {
        match self {
            Pipe::Part(part) => part.outer_diameter,
            Pipe::Casing(casing) => casing.outer_diameter,
        }
    }

    /// Inside diameter of the body. [m]
    pub fn inner_diameter(&self) -> f64 {
        match self {
            Pipe::Part(part) => part.inner_diameter,
            Pipe::Casing(casing) => casing.inner_diameter,
        }
    }

    /// Diameter that the mud flows around; zero for a bit, which fills its hole: mud passes through its slots, and the
    /// pressure loss of a bit's length is left out. [m]
    pub fn annular_diameter(&self) -> f64 {
        match self {
            Pipe::Part(part) if part.kind == PartKind::Bit => 0.0,
            _ => self.outer_diameter(),
        }
    }

    /// Weight per length in air, joints included. [kg/m]
    pub fn linear_mass(&self) -> f64 {
        match self {
            Pipe::Part(part) => part.linear_mass,
            Pipe::Casing(casing) => casing.linear_mass,
        }
    }

    /// Tool joints with a size of their own, and their share of the length; `None` for casing, whose couplings are short.
    pub fn joints(&self) -> Option<(Joint, f64)> {
        let Pipe::Part(part) = self else { return None };
        let joint = part.joint?;
        let own = joint.outer_diameter > part.outer_diameter || joint.inner_diameter < part.inner_diameter;
        own.then(|| (joint, (joint.length / part.joint_length).min(1.0)))
    }

    /// Largest diameter: that of the joints or couplings where they are known. [m]
    pub fn joint_diameter(&self) -> f64 {
        match self {
            Pipe::Part(part) => part.joint.map_or(part.outer_diameter, |joint| joint.outer_diameter.max(part.outer_diameter)),
            Pipe::Casing(casing) => casing.coupling_diameter.unwrap_or(casing.outer_diameter),
        }
    }
}

/// A stretch of annulus: pipe of one size in hole of one size, or hole without pipe below the bit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Annulus {
    /// Upper end. [m]
    pub top: f64,
    /// Lower end. [m]
    pub bottom: f64,
    /// Diameter of the hole. [m]
    pub hole_diameter: f64,
    /// Outside diameter of the pipe body; zero where there is none. [m]
    pub pipe_diameter: f64,
    /// Outside diameter of the tool joints; that of the body where there are none. [m]
    pub joint_diameter: f64,
    /// Share of the length that tool joints take. [-]
    pub joint_share: f64,
    /// Whether the hole is cased here.
    pub cased: bool,
    /// Whether it is the riser of a floating rig.
    pub riser: bool,
}

impl Annulus {
    /// Length along the hole. [m]
    pub fn length(&self) -> f64 {
        self.bottom - self.top
    }

    /// Volume per length. [m³/m]
    pub fn capacity(&self) -> f64 {
        std::f64::consts::FRAC_PI_4 * (self.hole_diameter * self.hole_diameter - self.pipe_diameter * self.pipe_diameter)
    }
}

/// The pieces of a hole, from surface down. More than these few are rare.
pub type Hole = SmallVec<[HolePiece; 6]>;

/// The hole from surface down while a section is being drilled to `hole_depth`: what a tool at each depth touches. Under a floating
/// rig it begins with the riser, or at the sea bed before there is one.
pub fn hole(fit: &Fit, section: usize, hole_depth: f64) -> Hole {
    let mut pieces = Hole::new();
    let sea_bed = fit.well.sea_bed();
    if let Some((riser, bottom)) = fit.riser(section).zip(sea_bed) {
        pieces.push(HolePiece { top: 0.0, bottom, diameter: riser.inner_diameter, cased: true, riser: true });
    }
    for casing in fit.well.sections[..section].iter().filter_map(|above| above.casing.as_ref()) {
        // The inner string hides the outer one from its own top down.
        pieces.retain(|piece| piece.top < casing.top);
        if let Some(last) = pieces.last_mut() {
            last.bottom = last.bottom.min(casing.top);
        }
        pieces.push(HolePiece {
            top: casing.top,
            bottom: casing.shoe,
            diameter: casing.inner_diameter,
            cased: true,
            riser: false,
        });
    }
    // Below the last shoe: rat hole, sections left open, and this one.
    let mut cursor = pieces.last().map_or(sea_bed.unwrap_or(0.0), |piece| piece.bottom);
    for open in &fit.well.sections[..=section] {
        let (top, bottom) = (open.top.max(cursor), open.bottom.min(hole_depth));
        if bottom > top {
            pieces.push(HolePiece { top, bottom, diameter: open.open_diameter(), cased: false, riser: false });
            cursor = bottom;
        }
    }
    pieces
}

/// Measured depth where open hole begins. [m]
pub fn open_from(fit: &Fit, section: usize) -> f64 {
    fit.well.casing_above(section).map_or(fit.well.sea_bed().unwrap_or(0.0), |casing| casing.shoe)
}

/// What hangs in the hole, from the bit up to surface.
pub fn string<'a>(fit: &'a Fit, situation: &Situation) -> Vec<PipePiece<'a>> {
    let section = &fit.well.sections[situation.section];
    let mut bottom = situation.bit_depth;
    let mut pieces = Vec::with_capacity(section.string.len());
    if situation.hung == Hung::Casing
        && let Some(casing) = &*section.casing
    {
        let length = casing.shoe - casing.top;
        let top = (bottom - length).max(0.0);
        let filled_to = (bottom - casing.floated).max(top);
        for (top, bottom, empty) in [(filled_to, bottom, true), (top, filled_to, false)] {
            if bottom > top {
                pieces.push(PipePiece { top, bottom, pipe: Pipe::Casing(casing), empty });
            }
        }
        // A liner goes in on drill pipe.
        if top > 0.0
            && let Some(part) = section.string.last()
        {
            pieces.push(PipePiece { top: 0.0, bottom: top, pipe: Pipe::Part(part), empty: false });
        }
        return pieces;
    }
    for part in &section.string {
        let top = (bottom - part.length).max(0.0);
        if bottom > top {
            pieces.push(PipePiece { top, bottom, pipe: Pipe::Part(part), empty: false });
        }
        bottom = top;
    }
    pieces
}

/// The annulus between hole and string from the bottom of the hole up to surface, hole below the bit included.
pub fn annuli(fit: &Fit, situation: &Situation, string: &[PipePiece]) -> Vec<Annulus> {
    let hole = hole(fit, situation.section, situation.hole_depth);
    let mut annuli = Vec::with_capacity(hole.len() + string.len());
    for piece in hole.iter().rev() {
        let below = (piece.top.max(situation.bit_depth.min(piece.bottom)), piece.bottom, None);
        // Both run upwards: what hangs below this piece of hole is passed over, and it ends with what hangs above.
        let first = string.partition_point(|pipe| pipe.top >= piece.bottom);
        let beside = string[first..].iter().take_while(|pipe| pipe.bottom > piece.top);
        let along = beside.map(|pipe| (pipe.top, pipe.bottom, Some(&pipe.pipe)));
        for (top, bottom, pipe) in std::iter::once(below).chain(along) {
            let (top, bottom) = (top.max(piece.top), bottom.min(piece.bottom));
            if bottom > top + 1e-9 {
                annuli.push(annulus(piece, pipe, (top, bottom)));
            }
        }
    }
    annuli
}

/// A stretch of a piece of hole with pipe in it, or without. What does not fit the hole is left out: the checks of the files
/// have refused it where it matters.
pub fn annulus(hole: &HolePiece, pipe: Option<&Pipe>, (top, bottom): (f64, f64)) -> Annulus {
    let fits = |diameter: f64| Some(diameter).filter(|diameter| *diameter < hole.diameter);
    let pipe_diameter = pipe.and_then(|pipe| fits(pipe.annular_diameter())).unwrap_or(0.0);
    let joints = pipe.and_then(Pipe::joints).filter(|_| pipe_diameter > 0.0);
    let (joint_diameter, joint_share) = joints
        .and_then(|(joint, share)| Some((fits(joint.outer_diameter.max(pipe_diameter))?, share)))
        .unwrap_or((pipe_diameter, 0.0));
    Annulus {
        top,
        bottom,
        hole_diameter: hole.diameter,
        pipe_diameter,
        joint_diameter,
        joint_share,
        cased: hole.cased,
        riser: hole.riser,
    }
}
