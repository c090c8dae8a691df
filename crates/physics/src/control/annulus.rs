//! The annulus as a gas bubble meets it: sections from the bottom of the hole up, each with its capacity, its
//! length along the hole and its vertical height. A place is the volume below it, which never stands still, so
//! that a horizontal leg (length without height) is no special case.

/// A stretch of annulus of one capacity and one slope.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AnnulusSection {
    /// Volume per length along the hole. [m³/m]
    pub capacity: f64,
    /// Length along the hole. [m]
    pub length: f64,
    /// Vertical height: zero in a horizontal leg, never less. [m]
    pub height: f64,
}

/// The whole annulus, from the bottom of the hole to the choke.
#[derive(Clone, Debug, PartialEq)]
pub struct Annulus {
    sections: Vec<AnnulusSection>,
    /// Vertical depth of the bottom. [m]
    bottom: f64,
    /// Volume and height below the upper end of each section, with a nought in front.
    below: Vec<(f64, f64)>,
}

/// A part of the annulus that lies within one section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AnnulusPiece {
    /// Volume. [m³]
    pub volume: f64,
    /// Vertical height. [m]
    pub height: f64,
    /// Vertical depth of its lower end. [m]
    pub vertical_depth: f64,
}

impl Annulus {
    /// Sections from the bottom up, and the vertical depth of the bottom. `None` when a section has no volume,
    /// rises by more than its length or falls (a hole that climbs towards its end), or when there is none.
    pub fn new(sections: Vec<AnnulusSection>, bottom: f64) -> Option<Annulus> {
        let sane = |section: &AnnulusSection| {
            let AnnulusSection { capacity, length, height } = *section;
            let finite = capacity.is_finite() && length.is_finite();
            finite && capacity > 0.0 && length > 0.0 && (0.0..=length * (1.0 + 1e-9)).contains(&height)
        };
        if sections.is_empty() || !bottom.is_finite() || !sections.iter().all(sane) {
            return None;
        }
        let mut below = vec![(0.0, 0.0)];
        let (mut volume, mut height) = (0.0, 0.0);
        for section in &sections {
            volume += section.capacity * section.length;
            height += section.height;
            below.push((volume, height));
        }
        Some(Annulus { sections, bottom, below })
    }

    /// Volume from the bottom to the choke. [m³]
    pub fn volume(&self) -> f64 {
        self.below[self.sections.len()].0
    }

    /// Vertical depth of the bottom. [m]
    pub fn bottom(&self) -> f64 {
        self.bottom
    }

    /// Vertical height above the bottom of the place with this volume below it. [m]
    pub fn height(&self, volume: f64) -> f64 {
        let section = self.section_at(volume);
        let ((low, height), (high, _)) = (self.below[section], self.below[section + 1]);
        let share = ((volume - low) / (high - low)).clamp(0.0, 1.0);
        height + self.sections[section].height * share
    }

    /// Vertical depth of the place with this volume below it. [m]
    pub fn vertical_depth(&self, volume: f64) -> f64 {
        self.bottom - self.height(volume)
    }

    /// The volume below a vertical depth: all of a level leg that lies at it. [m³]
    pub fn volume_below(&self, vertical_depth: f64) -> f64 {
        let wanted = self.bottom - vertical_depth;
        let mut volume = 0.0;
        for (section, below) in self.sections.iter().zip(&self.below) {
            let share = if section.height > 0.0 { (wanted - below.1) / section.height } else { f64::from(wanted >= below.1) };
            volume = below.0 + section.capacity * section.length * share.clamp(0.0, 1.0);
            if share < 1.0 {
                break;
            }
        }
        volume
    }

    /// The places at which the capacity changes, as volumes below them, upward. [m³]
    pub fn changes(&self) -> impl Iterator<Item = f64> {
        let pairs = self.sections.windows(2).zip(self.below.iter().skip(1));
        pairs.filter(|(pair, _)| (pair[1].capacity / pair[0].capacity - 1.0).abs() > 1e-9).map(|(_, below)| below.0)
    }

    /// The parts between two places, upward, none higher than `tallest`.
    pub fn pieces(&self, from: f64, to: f64, tallest: f64) -> impl Iterator<Item = AnnulusPiece> {
        let first = self.section_at(from);
        let sections = self.sections.iter().zip(self.below.windows(2)).skip(first);
        sections.take_while(move |(_, ends)| ends[0].0 < to).flat_map(move |(section, ends)| {
            let (low, high) = (ends[0].0.max(from), ends[1].0.min(to));
            let whole = ends[1].0 - ends[0].0;
            let height = section.height * ((high - low) / whole).max(0.0);
            let start = ends[0].1 + section.height * (low - ends[0].0) / whole;
            let count = (height / tallest).ceil().max(1.0);
            let (volume, height) = ((high - low).max(0.0) / count, height / count);
            (0..count as u32).map(move |step| AnnulusPiece {
                volume,
                height,
                vertical_depth: self.bottom - start - f64::from(step) * height,
            })
        })
    }

    fn section_at(&self, volume: f64) -> usize {
        self.below.partition_point(|below| below.0 <= volume).clamp(1, self.sections.len()) - 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bent() -> Annulus {
        let section = |capacity, length, height| AnnulusSection { capacity, length, height };
        let sections = vec![section(0.02, 200.0, 0.0), section(0.03, 500.0, 400.0), section(0.05, 2000.0, 2000.0)];
        Annulus::new(sections, 2400.0).unwrap()
    }

    #[test]
    fn law_height_and_volume_are_inverse() {
        let annulus = bent();
        assert!((annulus.volume() - 119.0).abs() < 1e-9);
        for step in 0..=100 {
            let depth = 24.0 * f64::from(step);
            let again = annulus.vertical_depth(annulus.volume_below(depth));
            assert!((again - depth).abs() < 1e-9, "{depth} {again}");
        }
        // The level leg counts whole at its own depth.
        assert!((annulus.volume_below(2400.0) - 4.0).abs() < 1e-12);
        assert!(annulus.volume_below(2401.0).abs() < 1e-12);
    }

    #[test]
    fn law_pieces_add_up() {
        let annulus = bent();
        for (from, to) in [(0.0, 119.0), (1.0, 3.0), (2.0, 40.0), (19.0, 19.0), (118.0, 119.0)] {
            let pieces: Vec<_> = annulus.pieces(from, to, 50.0).collect();
            let volume: f64 = pieces.iter().map(|piece| piece.volume).sum();
            let height: f64 = pieces.iter().map(|piece| piece.height).sum();
            assert!((volume - (to - from)).abs() < 1e-9, "{from} {to}");
            assert!((height - (annulus.height(to) - annulus.height(from))).abs() < 1e-9, "{from} {to}");
            assert!(pieces.iter().all(|piece| piece.height <= 50.0 + 1e-9));
            if let Some(first) = pieces.first() {
                assert!((first.vertical_depth - annulus.vertical_depth(from)).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn rejects_what_is_no_annulus() {
        let section = |capacity, length, height| AnnulusSection { capacity, length, height };
        assert_eq!(Annulus::new(vec![], 100.0), None);
        assert_eq!(Annulus::new(vec![section(0.0, 10.0, 10.0)], 100.0), None);
        assert_eq!(Annulus::new(vec![section(0.1, 10.0, 11.0)], 100.0), None);
        assert_eq!(Annulus::new(vec![section(0.1, 10.0, -1.0)], 100.0), None);
        assert_eq!(Annulus::new(vec![section(0.1, f64::NAN, 1.0)], 100.0), None);
    }
}
