//! The files of the page: those of one folder, and nothing else. No name leads out of it, not by `..`, not by an
//! absolute path, not through a link.

use rigwright_wellfile::Files;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fs::{File, OpenOptions};
use std::io::{self, Read, Write};
use std::path::{Component, Path, PathBuf};

/// How deep folders are searched for wells.
const DEEPEST: usize = 3;
/// More files than this are not listed.
const MOST_FILES: usize = 500;

/// A folder that files are taken from and written to.
#[derive(Clone, Debug)]
pub(crate) struct Folder {
    root: PathBuf,
}

/// What a file held when it was read; a later look tells whether somebody has changed it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Mark(pub(crate) String);

impl Mark {
    /// The mark of a text.
    pub(crate) fn of(text: &[u8]) -> Mark {
        let digest = Sha256::digest(text);
        Mark(digest.iter().map(|byte| format!("{byte:02x}")).collect())
    }
}

fn refused(why: &str) -> io::Error {
    io::Error::new(io::ErrorKind::PermissionDenied, why.to_owned())
}

impl Folder {
    pub(crate) fn new(root: &Path) -> io::Result<Folder> {
        let root = root.canonicalize()?;
        if root.is_dir() { Ok(Folder { root }) } else { Err(refused("not a folder")) }
    }

    /// A name inside the folder as plain parts; `a/../b` is `b`.
    pub(crate) fn tidy(name: &str) -> io::Result<String> {
        let mut parts: Vec<&str> = Vec::new();
        if name.contains(['\\', '\0']) {
            return Err(refused("such a name is not served"));
        }
        for part in Path::new(name).components() {
            match part {
                Component::CurDir => {}
                Component::ParentDir => {
                    parts.pop().ok_or_else(|| refused("outside the folder that is served"))?;
                }
                Component::Normal(part) => parts.push(part.to_str().ok_or_else(|| refused("such a name is not served"))?),
                Component::RootDir | Component::Prefix(_) => return Err(refused("outside the folder that is served")),
            }
        }
        if parts.is_empty() || parts.iter().any(|part| part.starts_with('.')) {
            return Err(refused("such a name is not served"));
        }
        Ok(parts.join("/"))
    }

    /// Where a name lies on disk, links followed, if that is inside.
    fn place(&self, name: &str) -> io::Result<PathBuf> {
        let place = self.root.join(Folder::tidy(name)?).canonicalize()?;
        if place.starts_with(&self.root) { Ok(place) } else { Err(refused("a link that leads outside the folder")) }
    }

    /// The wells of the folder: files that look like one, by name.
    pub(crate) fn wells(&self) -> Vec<String> {
        let mut found = self.ending("toml");
        found.retain(|name| self.is_well(name));
        found
    }

    /// Records of the folder, by name: a shoe test, a tally, a survey.
    pub(crate) fn records(&self) -> Vec<String> {
        self.ending("csv")
    }

    /// Files whose names end so, by name.
    fn ending(&self, end: &str) -> Vec<String> {
        let mut found = Vec::new();
        self.search(&self.root, 0, end, &mut found);
        found.sort();
        found
    }

    fn search(&self, folder: &Path, depth: usize, end: &str, found: &mut Vec<String>) {
        let Ok(entries) = std::fs::read_dir(folder) else { return };
        for entry in entries.flatten() {
            let (path, Ok(kind)) = (entry.path(), entry.file_type()) else { continue };
            if entry.file_name().to_string_lossy().starts_with('.') || found.len() >= MOST_FILES {
                continue;
            }
            if kind.is_dir() && depth < DEEPEST {
                self.search(&path, depth + 1, end, found);
            } else if kind.is_file()
                && path.extension().is_some_and(|extension| extension == end)
                && let Ok(name) = path.strip_prefix(&self.root)
                && let Some(name) = name.to_str()
            {
                found.push(name.to_owned());
            }
        }
    }

    /// A well names sections; a rig does not. A file that cannot be parsed is shown, so that it can be mended.
    fn is_well(&self, name: &str) -> bool {
        let Ok(text) = self.text(name) else { return false };
        text.lines().any(|line| line.trim_start().starts_with("[[section]]"))
    }

    /// A file as text.
    pub(crate) fn text(&self, name: &str) -> io::Result<String> {
        String::from_utf8(self.read(name)?).map_err(|_| io::Error::new(io::ErrorKind::InvalidData, "not text in UTF-8"))
    }

    /// Puts a text in place of a file that still holds what `seen` says: written beside it, forced to disk, then renamed,
    /// so that at any moment either the old or the new text is whole.
    pub(crate) fn replace(&self, name: &str, seen: &Mark, text: &str) -> Result<(), Unwritten> {
        let place = self.place(name)?;
        if Mark::of(&std::fs::read(&place)?) != *seen {
            return Err(Unwritten::Changed);
        }
        let folder = place.parent().ok_or_else(|| refused("no folder"))?;
        let file_name = place.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        let beside = folder.join(format!(".{file_name}.{:x}.new", fresh()?));
        let written = write_new(&beside, text)
            .and_then(|()| std::fs::set_permissions(&beside, std::fs::metadata(&place)?.permissions()))
            // The last look: what remains is a moment in which no program can be stopped from writing.
            .and_then(|()| Ok(Mark::of(&std::fs::read(&place)?) == *seen));
        let done = match written {
            Ok(true) => std::fs::rename(&beside, &place).map_err(Unwritten::from),
            Ok(false) => Err(Unwritten::Changed),
            Err(error) => Err(error.into()),
        };
        if done.is_err() {
            // Nothing is lost if it stays: its name begins with a dot and no one reads it.
            let _ = std::fs::remove_file(&beside);
        }
        done?;
        File::open(folder)?.sync_all()?;
        Ok(())
    }

    /// Writes a file that must not exist yet.
    pub(crate) fn create(&self, name: &str, text: &str) -> io::Result<()> {
        let name = Folder::tidy(name)?;
        let (folder, file) = name.rsplit_once('/').map_or((None, name.as_str()), |(folder, file)| (Some(folder), file));
        let folder = folder.map_or_else(|| Ok(self.root.clone()), |folder| self.place(folder))?;
        write_new(&folder.join(file), text)
    }
}

/// Why a file was not replaced.
#[derive(Debug)]
pub(crate) enum Unwritten {
    /// Somebody else has changed it since.
    Changed,
    /// The disk refuses.
    Disk(io::Error),
}

impl From<io::Error> for Unwritten {
    fn from(error: io::Error) -> Unwritten {
        Unwritten::Disk(error)
    }
}

fn fresh() -> io::Result<u64> {
    let mut bytes = [0; 8];
    getrandom::fill(&mut bytes).map_err(io::Error::other)?;
    Ok(u64::from_le_bytes(bytes))
}

fn write_new(place: &Path, text: &str) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).create_new(true).open(place)?;
    file.write_all(text.as_bytes())?;
    file.sync_all()
}

impl Files for Folder {
    fn read(&self, name: &str) -> io::Result<Vec<u8>> {
        let mut bytes = Vec::new();
        let file = File::open(self.place(name)?)?;
        // A file that grows while it is read stays within bounds too.
        file.take(rigwright_wellfile::LARGEST_FILE + 1).read_to_end(&mut bytes)?;
        Ok(bytes)
    }

    fn len(&self, name: &str) -> io::Result<u64> {
        let about = std::fs::metadata(self.place(name)?)?;
        if about.is_file() { Ok(about.len()) } else { Err(io::Error::new(io::ErrorKind::InvalidInput, "not a plain file")) }
    }
}

/// The folder with some texts put over its files.
pub(crate) struct Overlay<'a> {
    pub(crate) folder: &'a Folder,
    /// By tidy name.
    pub(crate) texts: &'a BTreeMap<String, String>,
}

impl Overlay<'_> {
    fn over(&self, name: &str) -> Option<&String> {
        self.texts.get(&Folder::tidy(name).ok()?)
    }
}

impl Files for Overlay<'_> {
    fn read(&self, name: &str) -> io::Result<Vec<u8>> {
        self.over(name).map_or_else(|| self.folder.read(name), |text| Ok(text.clone().into_bytes()))
    }

    fn len(&self, name: &str) -> io::Result<u64> {
        self.over(name).map_or_else(|| self.folder.len(name), |text| Ok(text.len() as u64))
    }
}
