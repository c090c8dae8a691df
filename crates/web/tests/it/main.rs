//! The page, asked as a browser asks it.

#[cfg(feature = "browser")]
mod browser;
mod editor;
mod guard;
mod noise;
mod pages;
mod site;
mod whatif;
