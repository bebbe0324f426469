//! The index as a file: a head of fixed length, the plants, and the places of their entries one plant
//! after the other. All of it has its sums; numbers stand with the least byte first.

use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::Path;

use super::places::{Place, Places};
use crate::folder::names::{self, INDEX};
use crate::folder::regular;
use crate::folder::store::{self, Stamp};
use crate::trial::Subject;

const MARK: &[u8; 8] = b"trug-ix1";
const HEAD: usize = MARK.len() + Stamp::BYTES + 8 + 6 * 4;
const PLACE: usize = 12;

/// What an index is of, and what it holds.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Head {
    /// The book as it was when it was last seen, with what was added since.
    pub(super) stamp: [u8; Stamp::BYTES],
    /// Bytes of the book that the places are of; the rest was added since.
    pub(super) covered: u64,
    /// Their sum.
    pub(super) sum: u32,
    /// Entries in them.
    pub(super) entries: u32,
    /// Their greatest number.
    pub(super) last: u32,
    plants: u32,
    plants_sum: u32,
}

/// An index that is open to read.
#[derive(Debug)]
pub(super) struct Index {
    pub(super) head: Head,
    file: File,
    plants: Vec<Plant>,
}

/// One plant of an index.
#[derive(Debug)]
struct Plant {
    of: Subject,
    /// Places of the plants before it, and its own.
    before: u64,
    count: u32,
    /// The sum of its places.
    sum: u32,
}

/// Writes an index of the book's first bytes.
pub(super) fn write(
    dir: &Path,
    places: &Places,
    stamp: [u8; Stamp::BYTES],
    covered: u64,
    sum: u32,
) -> io::Result<()> {
    let (mut plants, mut lists) = (Vec::new(), Vec::new());
    for (of, own) in places.plants() {
        let (from, of) = (lists.len(), of.to_string());
        for place in own {
            lists.extend(place.id.to_le_bytes());
            lists.extend(place.start.to_le_bytes());
        }
        plants.extend((own.len() as u32).to_le_bytes());
        plants.extend(crc32fast::hash(&lists[from..]).to_le_bytes());
        plants.extend((of.len() as u32).to_le_bytes());
        plants.extend(of.as_bytes());
    }
    let head = Head {
        stamp,
        covered,
        sum,
        entries: places.entries,
        last: places.last,
        plants: u32::try_from(plants.len()).map_err(io::Error::other)?,
        plants_sum: crc32fast::hash(&plants),
    };
    let mut bytes = head.bytes();
    bytes.extend(plants);
    bytes.extend(lists);
    store::replace(&dir.join(INDEX), &bytes)
}

/// Notes that the book was seen as `stamp`. Nothing is written but into a file that begins with the
/// head of an index, and nothing of it but the head.
pub(super) fn seen(dir: &Path, head: &Head, stamp: [u8; Stamp::BYTES]) -> io::Result<()> {
    let mut file = regular::open_own_there(&dir.join(INDEX))?;
    let mut found = [0; HEAD];
    file.read_exact(&mut found)?;
    if Head::of(&found).is_none() {
        return Err(io::ErrorKind::InvalidData.into());
    }
    file.rewind()?;
    let head = Head {
        stamp,
        ..head.clone()
    };
    file.write_all(&head.bytes())
}

/// The index of a folder; `None` where what stands there is none, or no whole one.
pub(super) fn open(dir: &Path) -> io::Result<Option<Index>> {
    let path = dir.join(INDEX);
    let mut file = regular::open_own_there(&path)?;
    let length = file.metadata()?.len();
    let mut bytes = [0; HEAD];
    file.read_exact(&mut bytes)?;
    let Some(head) = Head::of(&bytes).filter(|head| u64::from(head.plants) <= length) else {
        return Ok(None);
    };
    if length > names::most(&path) {
        return Ok(None);
    }
    let mut bytes = vec![0; head.plants as usize];
    file.read_exact(&mut bytes)?;
    if crc32fast::hash(&bytes) != head.plants_sum {
        return Ok(None);
    }
    let (mut rest, mut plants, mut before) = (Rest(&bytes), Vec::new(), 0);
    while !rest.0.is_empty() {
        let Some(plant) = rest.plant(before) else {
            return Ok(None);
        };
        before += u64::from(plant.count);
        plants.push(plant);
    }
    Ok(Some(Index { head, file, plants }))
}

impl Index {
    /// Every plant that the covered bytes have an entry of.
    pub(super) fn plants(&self) -> impl Iterator<Item = &Subject> {
        self.plants.iter().map(|plant| &plant.of)
    }

    /// Where a plant's entries are in the covered bytes, by number; `None` where the file no longer has
    /// that whole.
    pub(super) fn places(&mut self, of: &Subject) -> io::Result<Option<Vec<Place>>> {
        let at = self.plants.binary_search_by_key(&of, |plant| &plant.of);
        let Ok(at) = at else {
            return Ok(Some(Vec::new()));
        };
        let plant = &self.plants[at];
        let lists = HEAD as u64 + u64::from(self.head.plants);
        self.file
            .seek(SeekFrom::Start(lists + plant.before * PLACE as u64))?;
        let mut list = Vec::new();
        let length = u64::from(plant.count) * PLACE as u64;
        (&mut self.file).take(length).read_to_end(&mut list)?;
        if list.len() as u64 != length || crc32fast::hash(&list) != plant.sum {
            return Ok(None);
        }
        let mut rest = Rest(&list);
        let place = || {
            Some(Place {
                id: rest.u32()?,
                start: rest.u64()?,
            })
        };
        Ok(Some(std::iter::from_fn(place).collect()))
    }
}

impl Head {
    fn bytes(&self) -> Vec<u8> {
        let mut bytes = Vec::with_capacity(HEAD);
        bytes.extend(MARK);
        bytes.extend(self.stamp);
        bytes.extend(self.covered.to_le_bytes());
        let numbers = [
            self.sum,
            self.entries,
            self.last,
            self.plants,
            self.plants_sum,
        ];
        for number in numbers {
            bytes.extend(number.to_le_bytes());
        }
        bytes.extend(crc32fast::hash(&bytes).to_le_bytes());
        bytes
    }

    fn of(bytes: &[u8; HEAD]) -> Option<Head> {
        let (body, sum) = bytes.split_at(HEAD - 4);
        if Rest(sum).u32()? != crc32fast::hash(body) {
            return None;
        }
        let mut rest = Rest(body.strip_prefix(MARK)?);
        Some(Head {
            stamp: *rest.bytes()?,
            covered: rest.u64()?,
            sum: rest.u32()?,
            entries: rest.u32()?,
            last: rest.u32()?,
            plants: rest.u32()?,
            plants_sum: rest.u32()?,
        })
    }
}

/// Bytes that are left to read.
struct Rest<'a>(&'a [u8]);

impl<'a> Rest<'a> {
    fn bytes<const N: usize>(&mut self) -> Option<&'a [u8; N]> {
        let (bytes, rest) = self.0.split_first_chunk()?;
        self.0 = rest;
        Some(bytes)
    }

    fn u32(&mut self) -> Option<u32> {
        self.bytes().map(|bytes| u32::from_le_bytes(*bytes))
    }

    fn u64(&mut self) -> Option<u64> {
        self.bytes().map(|bytes| u64::from_le_bytes(*bytes))
    }

    fn plant(&mut self, before: u64) -> Option<Plant> {
        let (count, sum, length) = (self.u32()?, self.u32()?, self.u32()? as usize);
        let (of, rest) = self.0.split_at_checked(length)?;
        self.0 = rest;
        Some(Plant {
            of: str::from_utf8(of).ok()?.parse().ok()?,
            before,
            count,
            sum,
        })
    }
}
