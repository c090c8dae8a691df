//! What is prepared once a section, when the first situation of that section reads it.

use rigwright_well::Kept;

/// One prepared thing a section. A remedy turns a knob of one section and asks only there, so the others are never made.
pub struct PerSection<T> {
    cells: Vec<Kept<T>>,
}

impl<T> PerSection<T> {
    /// Nothing prepared yet, for this many sections.
    pub fn new(sections: usize) -> PerSection<T> {
        PerSection { cells: (0..sections).map(|_| Kept::default()).collect() }
    }

    /// That of a section, made at the first call.
    pub fn get(&self, section: usize, make: impl FnOnce() -> T) -> &T {
        self.cells[section].get(make)
    }
}
