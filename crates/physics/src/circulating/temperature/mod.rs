//! Temperatures: of the undisturbed rock, and of the mud while it circulates.
//!
//! Mud goes down the pipe, takes heat from the annulus on its way, turns at the bit and comes up beside the rock. [`steady`]
//! has the closed form for one geometry and straight rock temperatures, [`transient`] the march in time on any well;
//! [`transfer`] has the coefficients that both need. Heat along the hole in steel and rock is left out, and so is the heat
//! that the steel itself holds.

pub mod geotherm;
pub mod rock;
pub mod steady;
pub mod transfer;
pub mod transient;

#[cfg(test)]
mod tests;
