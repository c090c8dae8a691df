//! Volumes and strokes by section: down the surface lines and the string, up the annulus.

use super::{Constants, Remark};
use crate::Scene;
use crate::circulating::pumps::pump_output;
use crate::geometry::Pipe;
use rigwright_physics::circulating::passage::{AnnularCapacity, BoreCapacity};
use rigwright_physics::control::kill::KillStrokes;
use rigwright_physics::{Kind, Recorder};

/// A length of one capacity.
#[derive(Clone, Debug, PartialEq)]
pub struct Length {
    /// What it is: "drill pipe in casing".
    pub what: String,
    /// Measured depth of its upper end; nought for surface lines. [m]
    pub top: f64,
    /// Measured depth of its lower end. [m]
    pub bottom: f64,
    /// Length along it. [m]
    pub length: f64,
    /// Volume per length. [m³/m]
    pub capacity: f64,
    /// Volume. [m³]
    pub volume: f64,
    /// Strokes of one pump that fill it. [-]
    pub strokes: f64,
}

/// Every length that the kill mud passes.
#[derive(Clone, Debug, PartialEq)]
pub struct Volumes {
    /// Output of one stroke. [m³]
    pub pump_output: f64,
    /// Standpipe, hose, swivel and kelly or top drive.
    pub surface: Length,
    /// The string, from surface down.
    pub string: Vec<Length>,
    /// The annulus, from the bottom up; from preventers on the sea bed it goes on in the choke line.
    pub annulus: Vec<Length>,
    /// The riser round the string, which is displaced after the kill; `None` with preventers at surface.
    pub riser: Option<Length>,
    /// Measured depth of the shoe. [m]
    pub shoe: f64,
}

impl Length {
    /// This one and one above it in one. Its capacity is then a mean.
    fn and(&self, above: &Length) -> Length {
        let (length, volume) = (self.length + above.length, self.volume + above.volume);
        let (top, bottom) = (self.top.min(above.top), self.bottom.max(above.bottom));
        let strokes = self.strokes + above.strokes;
        Length { what: self.what.clone(), top, bottom, length, capacity: volume / length, volume, strokes }
    }
}

impl Volumes {
    /// Volume from the pump to the bit. [m³]
    pub fn to_bit(&self) -> f64 {
        self.surface.volume + self.string.iter().map(|length| length.volume).sum::<f64>()
    }

    /// Volume of the annulus below the shoe. [m³]
    pub fn bit_to_shoe(&self) -> f64 {
        self.annulus.iter().filter(|length| length.bottom > self.shoe + 1e-6).map(|length| length.volume).sum()
    }

    /// Volume of the whole annulus. [m³]
    pub fn bit_to_surface(&self) -> f64 {
        self.annulus.iter().map(|length| length.volume).sum()
    }

    /// Volume of one circulation. [m³]
    pub fn circulation(&self) -> f64 {
        self.to_bit() + self.bit_to_surface()
    }

    /// Strokes of a volume. [-]
    pub fn strokes(&self, volume: f64) -> f64 {
        volume / self.pump_output
    }
}

/// The lengths of a scene with the bit on bottom.
pub(super) fn volumes<R: Recorder>(scene: &Scene, constants: &Constants, rec: &mut R) -> Result<Volumes, Vec<Remark>> {
    rec.heading("pump output");
    let Some(exact) = pump_output(scene, rec) else {
        return Err(vec![Remark::new(
            "the pump is a duplex and the rig file does not give `rig.pump.rod`: no strokes can be told",
        )]);
    };
    let output = scaled(exact, constants.output, Kind::VolumePerStroke, rec);
    let length = |what: String, (top, bottom): (f64, f64), capacity: f64, rec: &mut R| {
        let length = bottom - top;
        let volume = capacity * length;
        rec.given("volume of the piece", volume, Kind::Volume);
        let strokes = rec.take(KillStrokes { volume, pump_output: output });
        Length { what, top, bottom, length, capacity, volume, strokes }
    };
    rec.heading("down to the bit");
    let pipes = scene.fit().rig.surface_lines.pipes();
    let whole: f64 = pipes.iter().map(|pipe| pipe.0).sum();
    let volume: f64 = pipes.iter().map(|pipe| pipe.0 * rec.take(BoreCapacity { inner_diameter: pipe.1 })).sum();
    let bore = scaled(volume / whole, constants.capacity, Kind::VolumePerLength, rec);
    let surface = length("surface lines".to_owned(), (0.0, whole), bore, rec);
    let mut string = Vec::new();
    for piece in scene.string().iter().rev().filter(|piece| piece.pipe.inner_diameter() > 0.0) {
        rec.stretch(|| piece.pipe.name().to_owned(), piece.top, piece.bottom);
        let bore = rec.take(BoreCapacity { inner_diameter: piece.pipe.inner_diameter() });
        let bore = scaled(bore, constants.capacity, Kind::VolumePerLength, rec);
        string.push(length(piece.pipe.name().to_owned(), (piece.top, piece.bottom), bore, rec));
    }
    rec.heading("up the annulus");
    let mut annulus = Vec::new();
    let mut riser: Option<Length> = None;
    for piece in scene.annuli() {
        let what = around(scene, piece.bottom, piece.cased);
        rec.stretch(|| what.clone(), piece.top, piece.bottom);
        let (hole_diameter, pipe_diameter) = (piece.hole_diameter, piece.pipe_diameter);
        let ring = rec.take(AnnularCapacity { hole_diameter, pipe_diameter });
        let ring = scaled(ring, constants.capacity, Kind::VolumePerLength, rec);
        if piece.riser {
            let this = length("riser".to_owned(), (piece.top, piece.bottom), ring, rec);
            riser = Some(match riser {
                Some(below) => below.and(&this),
                None => this,
            });
        } else {
            annulus.push(length(what, (piece.top, piece.bottom), ring, rec));
        }
    }
    if let Some((line, bed)) = scene.fit().riser(scene.situation.section).zip(scene.fit().well.sea_bed()) {
        let bore = rec.take(BoreCapacity { inner_diameter: line.choke_line });
        let bore = scaled(bore, constants.capacity, Kind::VolumePerLength, rec);
        annulus.push(length("choke line".to_owned(), (0.0, bed), bore, rec));
    }
    let shoe = crate::geometry::open_from(scene.fit(), scene.situation.section);
    Ok(Volumes { pump_output: output, surface, string, annulus, riser, shoe })
}

/// A value by the sheet's constants: the exact one as it stands, the trade's noted.
pub(crate) fn scaled<R: Recorder>(exact: f64, factor: f64, kind: Kind, rec: &mut R) -> f64 {
    let value = exact * factor;
    if (factor - 1.0).abs() > f64::EPSILON {
        rec.given("the same by the trade's rounded constant", value, kind);
    }
    value
}

/// What stands in the hole just above a measured depth, and whether that is cased.
fn around(scene: &Scene, bottom: f64, cased: bool) -> String {
    let inside = scene.string().iter().find(|piece| piece.top < bottom - 1e-9 && bottom <= piece.bottom + 1e-6);
    let name = inside.map_or("empty", |piece| match piece.pipe {
        Pipe::Part(part) => part.name.as_str(),
        Pipe::Casing(casing) => casing.name.as_str(),
    });
    format!("{name} in {}", if cased { "casing" } else { "open hole" })
}
