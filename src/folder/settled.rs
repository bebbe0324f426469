//! What was settled of the order, kept beside it.
//!
//! The file is no record: it is made anew whenever what it was settled from has changed, and can be thrown away.
//! So one that cannot be read is none, and one that cannot be written is not missed.

use std::path::Path;

use super::names::SETTLED;
use super::{Folder, file, store};
use crate::order::{Aim, Kept};
use crate::problem::read_ron;

/// The demo's.
const DEMO: &str = include_str!("../../catalogue/order.settled.ron");

/// What the file says to who opens it.
const HEAD: &str = "\
// What trug settled of order.ron, and when. It is made anew when what it was settled from has changed;
// nothing is to be changed here, and the file may be thrown away.
";

/// What was settled of the order of a folder, or of the demo's, for this aim.
pub fn settled(folder: Option<&Path>, aim: Aim) -> Option<Kept> {
    all(folder).into_iter().find(|kept| kept.aim == aim)
}

/// All that was settled of it.
pub fn all(folder: Option<&Path>) -> Vec<Kept> {
    let read = |text: &str| read_ron(SETTLED, text).unwrap_or_default();
    match folder {
        Some(dir) => {
            file::read_own(&dir.join(SETTLED)).map_or_else(|_| Vec::new(), |text| read(&text))
        }
        None => read(DEMO),
    }
}

/// Keeps what was settled in a folder, where this program may write it, beside what was settled there for
/// another aim.
pub fn keep(folder: &Folder, kept: &Kept) {
    let path = folder.dir().join(SETTLED);
    if folder.writable(&path).is_err() {
        return;
    }
    let mut all = all(Some(folder.dir()));
    all.retain(|other| other.aim != kept.aim);
    all.push(kept.clone());
    all.sort_by_key(|kept| kept.aim == Aim::OnAverage);
    if let Some(text) = written(&all) {
        // OK to fail: it is settled again then.
        let _ = store::replace(&path, text.as_bytes());
    }
}

/// The demo's file as it is laid out in a folder.
pub fn demo_file() -> (&'static str, &'static str) {
    (SETTLED, DEMO)
}

/// What stands in the file.
fn written(kept: &[Kept]) -> Option<String> {
    let pretty = ron::ser::PrettyConfig::new().depth_limit(4).indentor(" ");
    let text = ron::ser::to_string_pretty(&kept, pretty).ok()?;
    Some(format!("{HEAD}{text}\n"))
}
