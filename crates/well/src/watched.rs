//! Which parts of a fit a figure was worked out from: whoever reads a watched part leaves a note, so that after a change
//! only the figures that stand on it need working out again.
//!
//! The notes are kept by thread: what is worked out between the beginning and the end of [`noted`] is worked out on one.
//! What is not watched counts as read by everybody, so a part that is watched too little costs time and never a wrong figure.
//! What is kept for later readers must be kept with its notes: [`Kept`].

use crate::{Fit, Section};
use std::cell::{Cell, OnceCell};
use std::fmt;
use std::ops::{BitOr, Deref, DerefMut};

/// A set of parts of a fit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Parts(u128);

impl Parts {
    /// No part.
    pub const NONE: Parts = Parts(0);
    /// Every part, and the rest of the fit.
    pub const ALL: Parts = Parts(u128::MAX);
    /// What is not watched: everybody reads it.
    const REST: Parts = Parts(1 << 127);

    /// Whether any part stands in both.
    pub fn meets(self, other: Parts) -> bool {
        self.0 & other.0 != 0
    }
}

impl BitOr for Parts {
    type Output = Parts;

    fn bitor(self, other: Parts) -> Parts {
        Parts(self.0 | other.0)
    }
}

thread_local! {
    static READ: Cell<Parts> = const { Cell::new(Parts::REST) };
}

/// Notes that parts were read: for what is kept with its notes and read once more.
#[inline]
pub fn note(parts: Parts) {
    READ.with(|read| read.set(read.get() | parts));
}

/// Works something out and tells which parts it read. Whoever asked for it has read them too.
pub fn noted<T>(work_out: impl FnOnce() -> T) -> (T, Parts) {
    let before = READ.with(|read| read.replace(Parts::REST));
    let made = work_out();
    let parts = READ.with(Cell::get);
    note(before);
    (made, parts)
}

/// What is worked out once, when the first reader asks; every reader is noted as a reader of what it was worked out from.
pub struct Kept<T>(OnceCell<(T, Parts)>);

impl<T> Default for Kept<T> {
    fn default() -> Kept<T> {
        Kept(OnceCell::new())
    }
}

impl<T: Clone> Clone for Kept<T> {
    fn clone(&self) -> Kept<T> {
        Kept(self.0.clone())
    }
}

impl<T> Kept<T> {
    /// What is kept, worked out at the first call.
    pub fn get(&self, work_out: impl FnOnce() -> T) -> &T {
        let (value, parts) = self.0.get_or_init(|| noted(work_out));
        note(*parts);
        value
    }

    /// Keeps what was worked out elsewhere, with the parts that it stands on; what is kept already stays.
    pub fn put(&self, value: T, parts: Parts) {
        self.0.get_or_init(|| (value, parts));
    }

    /// Whether anything is kept.
    pub fn is_known(&self) -> bool {
        self.0.get().is_some()
    }

    /// What is kept with the parts that it stands on, if anybody asked for it.
    pub fn into_inner(self) -> Option<(T, Parts)> {
        self.0.into_inner()
    }
}

/// A part of a fit whose readers are noted.
#[derive(Clone, Copy)]
pub struct Watched<T> {
    value: T,
    part: Parts,
}

impl<T> From<T> for Watched<T> {
    /// Until it has its place in a fit, whoever reads it reads everything.
    fn from(value: T) -> Watched<T> {
        Watched { value, part: Parts::ALL }
    }
}

impl<T> Deref for Watched<T> {
    type Target = T;

    fn deref(&self) -> &T {
        note(self.part);
        &self.value
    }
}

impl<T> DerefMut for Watched<T> {
    fn deref_mut(&mut self) -> &mut T {
        &mut self.value
    }
}

impl<T: PartialEq> PartialEq for Watched<T> {
    fn eq(&self, other: &Watched<T>) -> bool {
        self.value == other.value
    }
}

impl<T: fmt::Debug> fmt::Debug for Watched<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.value.fmt(f)
    }
}

impl<'a, T> IntoIterator for &'a Watched<Vec<T>> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

/// What is done with each watched part of a fit and the same part of another.
trait Visit {
    fn part<T: Clone + PartialEq>(&mut self, place: Parts, one: &mut Watched<T>, other: &Watched<T>);
}

/// Places of the parts of a section, and how many sections have places of their own; those below share theirs.
const OF_SECTION: u32 = 8;
const SECTIONS: u32 = 11;

/// Goes through every watched part. Those of the sections come first.
fn visit(one: &mut Fit, other: &Fit, visitor: &mut impl Visit) {
    for (index, (section, same)) in one.well.sections.iter_mut().zip(&other.well.sections).enumerate() {
        visit_section(index as u32 % SECTIONS * OF_SECTION, section, same, visitor);
    }
    let mut next = OF_SECTION * SECTIONS;
    let mut place = || {
        next += 1;
        Parts(1 << (next - 1))
    };
    let (well, same) = (&mut one.well, &other.well);
    visitor.part(place(), &mut well.friction, &same.friction);
    visitor.part(place(), &mut well.margins, &same.margins);
    visitor.part(place(), &mut well.reserves, &same.reserves);
    visitor.part(place(), &mut well.casing_factors, &same.casing_factors);
    visitor.part(place(), &mut well.kick, &same.kick);
    visitor.part(place(), &mut well.prices, &same.prices);
    visitor.part(place(), &mut well.heat, &same.heat);
    visitor.part(place(), &mut well.site, &same.site);
    let (rig, same) = (&mut one.rig, &other.rig);
    visitor.part(place(), &mut rig.mast, &same.mast);
    visitor.part(place(), &mut rig.crown, &same.crown);
    visitor.part(place(), &mut rig.block, &same.block);
    visitor.part(place(), &mut rig.tongs, &same.tongs);
    visitor.part(place(), &mut rig.slips, &same.slips);
    // What is watched within a part comes before it: once it is made the same, the part differs only in the rest of it.
    let (drawworks, same_drawworks) = (&mut rig.drawworks.value, &same.drawworks.value);
    visitor.part(place(), &mut drawworks.line_pull, &same_drawworks.line_pull);
    visitor.part(place(), &mut drawworks.hoisting_speed, &same_drawworks.hoisting_speed);
    visitor.part(place(), &mut drawworks.block_speed, &same_drawworks.block_speed);
    visitor.part(place(), &mut drawworks.acceleration, &same_drawworks.acceleration);
    visitor.part(place(), &mut drawworks.brake_power, &same_drawworks.brake_power);
    visitor.part(place(), &mut drawworks.brake_torque, &same_drawworks.brake_torque);
    visitor.part(place(), &mut rig.drawworks, &same.drawworks);
    visitor.part(place(), &mut rig.line, &same.line);
    visitor.part(place(), &mut rig.raising_line, &same.raising_line);
    visitor.part(place(), &mut rig.drive, &same.drive);
    visitor.part(place(), &mut rig.pump, &same.pump);
    visitor.part(place(), &mut rig.surface_lines, &same.surface_lines);
    visitor.part(place(), &mut rig.pits, &same.pits);
    visitor.part(place(), &mut rig.drives, &same.drives);
    visitor.part(place(), &mut rig.returns, &same.returns);
    visitor.part(place(), &mut rig.sets, &same.sets);
    visitor.part(place(), &mut rig.emergency, &same.emergency);
    visitor.part(place(), &mut rig.stack, &same.stack);
    visitor.part(place(), &mut rig.accumulator, &same.accumulator);
}

fn visit_section(first: u32, section: &mut Section, same: &Section, visitor: &mut impl Visit) {
    let place = |at: u32| Parts(1 << (first + at));
    visitor.part(place(0), &mut section.mud, &same.mud);
    visitor.part(place(1), &mut section.string, &same.string);
    visitor.part(place(2), &mut section.drilling, &same.drilling);
    visitor.part(place(3), &mut section.tripping, &same.tripping);
    visitor.part(place(4), &mut section.cleaning, &same.cleaning);
    visitor.part(place(5), &mut section.candidate_muds, &same.candidate_muds);
    visitor.part(place(6), &mut section.sticking, &same.sticking);
    visitor.part(place(7), &mut section.casing, &same.casing);
}

struct Placing;

impl Visit for Placing {
    fn part<T: Clone + PartialEq>(&mut self, place: Parts, one: &mut Watched<T>, _: &Watched<T>) {
        one.part = place;
    }
}

/// Parts that differ; each is made the same, so that what then differs is not watched.
struct Levelling(Parts);

impl Visit for Levelling {
    fn part<T: Clone + PartialEq>(&mut self, place: Parts, one: &mut Watched<T>, other: &Watched<T>) {
        if one.value != other.value {
            self.0 = self.0 | place;
            one.value = other.value.clone();
        }
    }
}

/// Gives every watched part its place.
pub(crate) fn placed(mut fit: Fit) -> Fit {
    let model = fit.clone();
    visit(&mut fit, &model, &mut Placing);
    fit
}

/// Where two fits differ: everywhere, where something differs that is not watched.
pub(crate) fn difference(one: &Fit, other: &Fit) -> Parts {
    let mut level = one.clone();
    let mut levelling = Levelling(Parts::NONE);
    visit(&mut level, other, &mut levelling);
    if level == *other { levelling.0 } else { Parts::ALL }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn watched<T>(value: T, place: u32) -> Watched<T> {
        Watched { value, part: Parts(1 << place) }
    }

    #[test]
    fn law_who_reads_a_part_is_noted_as_its_reader_and_so_is_who_asked_for_it() {
        let (a, b) = (watched(1.0, 0), watched(2.0, 1));
        let ((sum, inner), outer) = noted(|| noted(|| *a + 1.0));
        assert!((sum - 2.0_f64).abs() < 1e-12);
        assert_eq!((inner, outer), (a.part | Parts::REST, a.part | Parts::REST));
        let (_, both) = noted(|| (noted(|| *a), *b));
        assert!(both.meets(a.part) && both.meets(b.part));
        assert!(!noted(|| *b).1.meets(a.part), "what was read before is not read again");
    }

    #[test]
    fn law_every_reader_of_what_is_kept_reads_what_it_was_worked_out_from() {
        let a = watched(3.0, 0);
        let kept = Kept::default();
        let first = noted(|| *kept.get(|| *a * 2.0)).1;
        let second = noted(|| *kept.get(|| panic!("it is worked out once"))).1;
        assert!(first.meets(a.part) && second == first);
    }

    #[test]
    fn law_everybody_reads_what_is_not_watched() {
        assert!(noted(|| ()).1.meets(Parts::ALL) && !noted(|| ()).1.meets(Parts::NONE));
        let unplaced = Watched::from(1.0);
        assert_eq!(noted(|| *unplaced).1, Parts::ALL);
    }
}
