//! The table of keys: each row drives dispatch, the footer, the help and the tests.
//!
//! On the Key page the number keys answer, so pages are switched by Tab and Shift-Tab.

mod found;
mod help;
mod mode;
mod shown;

use ratatui::crossterm::event::{KeyCode, KeyEvent, KeyModifiers};

use super::Message;
use super::choose_page::ChooseMessage;
use super::filling::FillingMessage;
use super::import::ImportMessage;
use super::jump::JumpMessage;
use super::key_page::KeyMessage;
use super::kit::cursor::Movement;
use super::kit::line::Edit;
use super::order_page::{Kind, OrderMessage, Side};
use super::row_page::RowMessage;
use super::stock_page::StockMessage;
use super::tags_page::TagsMessage;
use crate::tag::SaleOrder;
pub use found::found;
pub(super) use found::{commands, page_of};
pub use help::{help, title};
pub use mode::Mode;
pub use shown::footer;

/// Which presses a row takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Press {
    /// This key, without Control or Alt.
    Plain(KeyCode),
    /// This key with Control.
    Control(KeyCode),
    /// Any of the digits.
    Digit,
    /// Any character that can be typed.
    Printable,
}

/// What a press becomes.
#[derive(Debug, Clone)]
pub enum Meaning {
    /// Always the same message.
    Is(Message),
    /// A message of the digit or character that was pressed.
    Of(fn(char) -> Message),
}

/// One row of the table.
#[derive(Debug, Clone)]
pub struct Binding {
    /// The mode in which it holds.
    pub mode: Mode,
    /// The presses that it takes.
    pub presses: &'static [Press],
    /// The keys as they are shown.
    pub keys: &'static str,
    /// What it does in a word or two, for the footer; not in the footer where empty.
    pub short: &'static str,
    /// What it does, for the help: a short clause, then behind a colon or a semicolon what else is
    /// worth knowing where there is room.
    pub long: &'static str,
    /// What it sends.
    pub meaning: Meaning,
}

const fn row(
    mode: Mode,
    presses: &'static [Press],
    keys: &'static str,
    short: &'static str,
    long: &'static str,
    meaning: Meaning,
) -> Binding {
    Binding {
        mode,
        presses,
        keys,
        short,
        long,
        meaning,
    }
}

use ChooseMessage as C;
use FillingMessage as F;
use ImportMessage as I;
use JumpMessage as J;
use KeyCode::{
    BackTab, Backspace, Char, Delete, Down, End, Enter, Esc, F as Function, Home, Left, PageDown,
    PageUp, Right, Tab, Up,
};
use KeyMessage as K;
use Meaning::{Is, Of};
use Mode::{
    Anywhere, Asking, Beginning, Browsing, Choosing, Counting, Filling, Finding, Helping,
    ImportingAnswer, ImportingFile, ImportingPreview, ImportingWords, Jumping, Line, List, Naming,
    Narrow, Noting, Ordering, Page, Pages, Picking, Reckoning, Rowing, Sheet, Small, Stocking,
    Tagging, Typing, Writing,
};
use OrderMessage as O;
use Press::{Control, Digit, Plain, Printable};
use RowMessage as R;
use StockMessage as S;
use TagsMessage as T;

const fn key(message: KeyMessage) -> Meaning {
    Is(Message::Key(message))
}

const fn jump(message: JumpMessage) -> Meaning {
    Is(Message::Jump(message))
}

const fn choose(message: ChooseMessage) -> Meaning {
    Is(Message::Choose(message))
}

const fn along(message: RowMessage) -> Meaning {
    Is(Message::Row(message))
}

const fn order(message: OrderMessage) -> Meaning {
    Is(Message::Order(message))
}

const fn stock(message: StockMessage) -> Meaning {
    Is(Message::Stock(message))
}

const fn tags(message: TagsMessage) -> Meaning {
    Is(Message::Tags(message))
}

const fn fill(message: FillingMessage) -> Meaning {
    Is(Message::Fill(message))
}

const fn to(movement: Movement) -> Meaning {
    Is(Message::Move(movement))
}

const fn edit(edit: Edit) -> Meaning {
    Is(Message::Edit(edit))
}

/// Every key of the screen, the most used first within a mode.
#[rustfmt::skip] // A table reads by rows.
pub const BINDINGS: &[Binding] = &[
    row(Asking, &[Digit], "1 to 9", "", "Answer with that state; at a number, begin the line. 0: cannot tell", Of(|c| Message::Key(K::Digit(c)))),
    row(Asking, &[Plain(Char(' '))], "Space", "", "Pass the question: I can't tell", key(K::CannotTell)),
    row(Asking, &[Plain(Char('+')), Plain(Char('m'))], "+ or m", "several", "Mark several states; then Enter: it is one of these", key(K::Mark)),
    row(Asking, &[Plain(Char('.'))], ".", "", "Begin a number under 1", key(K::Begin('.'))),
    row(Asking, &[Plain(Enter)], "Enter", "", "Give what is marked; on an answer, change it; at a number, begin the line, as for half", key(K::Give)),
    row(Asking, &[Plain(Up), Plain(Left)], "Up or Left", "", "Go back over the answers", to(Movement::Up)),
    row(Asking, &[Plain(Down), Plain(Right)], "Down or Right", "", "Go forward; at last to the next question", to(Movement::Down)),
    row(Asking, &[Plain(Esc)], "Esc", "", "Drop the marks; or go to the next question", key(K::Drop)),
    row(Asking, &[Plain(Char('/'))], "/", "find", "Find a trait; to answer it now: by its name, a state or its question, slips forgiven", key(K::Find)),
    row(Asking, &[Plain(Char('o'))], "o", "forms", "Look through the forms; each drawn, with what tells it", key(K::Browse)),
    row(Asking, &[Plain(Char('g'))], "g", "words", "What the words mean; those of the question, such as ray floret and involute", Is(Message::OpenWords)),
    row(Asking, &[Plain(Char('d'))], "d", "", "Measure: answer the diameter now", key(K::Measure)),
    row(Asking, &[Plain(Char('n'))], "n", "new", "Start a new bloom", key(K::New)),
    row(Asking, &[Plain(Char('s'))], "s", "to row", "Note the bloom in the row; you say of which plant", Is(Message::NoteBloom)),
    row(Asking, &[Plain(Char('a'))], "a", "look again", "Take a second look; at the answer that would tell most: both looks count", key(K::LookAgain)),
    row(Asking, &[Plain(Char('u'))], "u", "undo", "Undo the last answer; any change of them, a new bloom too", key(K::Undo)),
    row(Asking, &[Control(Char('r'))], "Ctrl-R", "", "Redo what was undone", key(K::Redo)),
    row(Asking, &[Plain(Char('r'))], "r", "rules", "The next rule set; the same answers are read under it", key(K::Rules)),
    row(Asking, &[Plain(Char('k'))], "k", "", "Go on with a half-keyed bloom; the one in hand when trug last ended", key(K::GoOn)),
    row(Asking, &[Plain(Char('x'))], "x", "", "Drop that bloom", key(K::LetGo)),
    row(Asking, &[Plain(Backspace), Plain(Delete)], "Backspace", "take back", "Take back an answer; the one under the cursor, else the last one given", key(K::TakeBack)),
    row(Typing, &[Plain(Enter)], "Enter", "give", "Give the line as the answer: 5, 4-7, 10+, 60 %, 1/4, half, 98 104 101, 3 1/2 in", key(K::Give)),
    row(Typing, &[Plain(Esc)], "Esc", "drop the line", "Drop the line", key(K::Drop)),
    row(Finding, &[Plain(Enter)], "Enter", "ask it", "Ask the trait under the cursor", key(K::Give)),
    row(Finding, &[Plain(Esc)], "Esc", "back", "Leave the search", key(K::Drop)),
    row(Browsing, &[Plain(Down), Plain(Right), Plain(Char('j'))], "Down", "next form", "The next form", to(Movement::Down)),
    row(Browsing, &[Plain(Up), Plain(Left), Plain(Char('k'))], "Up", "form before", "The form before", to(Movement::Up)),
    row(Browsing, &[Plain(Char(' '))], "Space", "", "Five forms on", to(Movement::PageDown)),
    row(Browsing, &[Plain(Char('g'))], "g", "words", "What the words mean; those that tell the form", Is(Message::OpenWords)),
    row(Browsing, &[Plain(Esc), Plain(Enter), Plain(Char('o')), Plain(Char('q'))], "Esc", "back", "Back to the question", key(K::Drop)),
    row(Choosing, &[Plain(Char('/'))], "/", "words", "Find by words; of a name, raiser, form or colour: the list follows as you type", choose(C::Words)),
    row(Choosing, &[Plain(Char('c'))], "c", "colour", "A colour: a word, a family such as pinks, #rrggbb, lab(L a b), or several with or between", choose(C::Colour)),
    row(Choosing, &[Plain(Char('+')), Plain(Char('='))], "+", "", "Allow a colour farther away", choose(C::Farther(1))),
    row(Choosing, &[Plain(Char('-'))], "-", "", "Keep nearer to the colour", choose(C::Farther(-1))),
    row(Choosing, &[Plain(Char('f'))], "f", "narrow", "Narrow by form, size ...; also colours, height, price: see what each would leave, then pick", choose(C::Facets)),
    row(Choosing, &[Plain(Char('p'))], "p", "use", "Pick the use to rank for", choose(C::Uses)),
    row(Choosing, &[Plain(Char('s'))], "s", "sort", "Sort by the next order; of those that mean something", choose(C::Sort)),
    row(Choosing, &[Plain(Char('m')), Plain(Char(' '))], "m or Space", "shortlist", "On the shortlist, or off it; it is marked +", choose(C::Mark)),
    row(Choosing, &[Plain(Char('a'))], "a", "add", "Add a variety; on a slip with all its fields", choose(C::Add)),
    row(Choosing, &[Plain(Char('e'))], "e", "change", "Change the variety; on the same slip", choose(C::Change)),
    row(Choosing, &[Plain(Char('y'))], "y", "", "Add one like it; with another name", choose(C::Copy)),
    row(Choosing, &[Plain(Char('X')), Plain(Delete)], "X or Delete", "", "Drop the variety: asked once", choose(C::DropVariety)),
    row(Choosing, &[Plain(Backspace)], "Backspace", "take back", "Take back the last narrowing; at last the use", choose(C::TakeBack)),
    row(Choosing, &[Plain(Char('d'))], "d", "", "Where nothing is left: drop the narrowing to blame", choose(C::Mend)),
    row(Choosing, &[Plain(Char('r'))], "r", "", "Note why it is shortlisted; puts it on the shortlist", choose(C::Note)),
    row(Choosing, &[Plain(Char('n'))], "n", "", "Your notes on the variety", choose(C::Notes)),
    row(Choosing, &[Plain(Char('h'))], "h", "", "Count the tubers on hand", choose(C::OnHand)),
    row(Choosing, &[Plain(Char('x'))], "x", "", "Pick it to be compared; again: let it go. It is marked x", choose(C::Pick)),
    row(Choosing, &[Plain(Char('v'))], "v", "compare", "Compare side by side; what x picked, else the shortlist", Is(Message::OpenCompare)),
    row(Choosing, &[Plain(Char('i'))], "i", "read in", "Read a spreadsheet in: CSV, XLSX or ODS; headings and words are asked about, then all or nothing", choose(C::BeginImport)),
    row(Choosing, &[Plain(Char('g'))], "g", "", "The list by colour: what is narrowed, gaps and all", Is(Message::OpenColours)),
    row(Choosing, &[Plain(Char('L'))], "L", "", "Its life: bought, planted, cut, lifted, stored and sold; year by year and day by day", Is(Message::OpenLife)),
    row(Choosing, &[Plain(Char('u'))], "u", "undo", "Take back the last change; on whatever page it was made", Is(Message::Undo)),
    row(Choosing, &[Control(Char('r'))], "Ctrl-R", "", "Do again what was taken back", Is(Message::Redo)),
    row(Choosing, &[Plain(Enter), Plain(Char('l'))], "Enter or l", "", "Everything on the variety", Is(Message::OpenWhy)),
    row(Writing, &[Plain(Enter)], "Enter", "keep", "Keep the line", choose(C::Give)),
    row(Writing, &[Plain(Esc)], "Esc", "drop the line", "Drop the line: all is as it was before", choose(C::Drop)),
    row(Picking, &[Plain(Enter)], "Enter", "pick", "Pick it in place of the others; again: let it go", choose(C::Give)),
    row(Picking, &[Plain(Char(' '))], "Space", "this as well", "Let this value do as well; as those picked", choose(C::Also)),
    row(Picking, &[Plain(Right), Plain(Tab)], "Right or Tab", "other lists", "What else to narrow by", choose(C::Facet(1))),
    row(Picking, &[Plain(Left), Plain(BackTab)], "Left", "", "Back to what was before it", choose(C::Facet(-1))),
    row(Picking, &[Plain(Esc), Plain(Char('f')), Plain(Char('q'))], "Esc", "back", "Back to the list", choose(C::Drop)),
    row(ImportingFile, &[Plain(Enter)], "Enter", "open", "Go into the folder under the cursor, or read the file", choose(C::Import(I::Give))),
    row(ImportingFile, &[Plain(Tab)], "Tab", "complete", "Write what all that go on from it have in common", choose(C::Import(I::Complete))),
    row(ImportingFile, &[Plain(Esc)], "Esc", "back", "Back to the list; what was typed and answered stays", choose(C::Import(I::Back))),
    row(ImportingWords, &[Plain(Enter)], "Enter", "this one", "Give the answer under the cursor", choose(C::Import(I::Give))),
    row(ImportingWords, &[Digit], "1 to 9, 0", "", "Give the answer with this digit; 0 leaves out what is asked about", Of(|c| Message::Choose(C::Import(I::Digit(c))))),
    row(ImportingWords, &[Plain(Char('/'))], "/", "type", "Type another answer, found as you type", choose(C::Import(I::Type))),
    row(ImportingWords, &[Plain(Char('?'))], "?", "keys", "This list of keys", Is(Message::OpenHelp)),
    row(ImportingWords, &[Plain(Esc), Plain(Backspace)], "Esc", "back", "Back to the question before, at last to the file", choose(C::Import(I::Back))),
    row(ImportingAnswer, &[Plain(Enter)], "Enter", "give", "Give the answer under the cursor, else what is typed", choose(C::Import(I::Give))),
    row(ImportingAnswer, &[Plain(Esc)], "Esc", "back", "Back to the answers that are offered", choose(C::Import(I::Back))),
    row(ImportingPreview, &[Plain(Enter)], "Enter", "take it in", "Take all of it into the list, as one change that u takes back", choose(C::Import(I::Give))),
    row(ImportingPreview, &[Plain(Char('x'))], "x", "", "Leave out the rows that cannot be read; again: not", choose(C::Import(I::LeaveOut))),
    row(ImportingPreview, &[Plain(Char('?'))], "?", "keys", "This list of keys", Is(Message::OpenHelp)),
    row(ImportingPreview, &[Plain(Esc), Plain(Backspace)], "Esc", "back", "Back to the last question, at last to the file; nothing is changed", choose(C::Import(I::Back))),
    row(Rowing, &[Digit], "1 to 9, 0", "note", "Note along the row: 1 diameters, 2 vase, 3 weather, 4 colour, 5 stems, 6 open, 7 cut, 8 visits, 9 tubers, 0 any words", Of(|c| Message::Row(R::Walk(c)))),
    row(Rowing, &[Plain(Enter), Plain(Char('l'))], "Enter or l", "in full", "Everything of the plant: evidence, charts, what is missing, its entries", Is(Message::OpenWhy)),
    row(Rowing, &[Plain(Char('d'))], "d", "decide", "Keep, hold or cull it; and why", along(R::Decide)),
    row(Rowing, &[Plain(Char('/'))], "/", "find", "Find by words; of a number, parent, row, form or decision: the row follows as you type", along(R::Find)),
    row(Rowing, &[Plain(Char('s'))], "s", "sort", "The next order: what is next, number, place, form, vase", along(R::Sort)),
    row(Rowing, &[Plain(Char('g'))], "g", "whole row", "The row as a whole: sown, kept, the best parents", Is(Message::OpenWhole)),
    row(Rowing, &[Plain(Char('t'))], "t", "day", "The day, and who looks; of the notes to come", along(R::Day)),
    row(Rowing, &[Plain(Char('x'))], "x", "", "Pick it to be compared; again: let it go. It is marked x", along(R::Pick)),
    row(Rowing, &[Plain(Char('v'))], "v", "compare", "Compare their vase life; which of those that x picked lasts longer", Is(Message::OpenCompare)),
    row(Rowing, &[Plain(Char('a'))], "a", "add", "Add a seedling", along(R::Add)),
    row(Rowing, &[Plain(Char('c'))], "c", "cuts", "Note stems cut in the beds; a variety of your list and how many, then the next", along(R::Cut)),
    row(Rowing, &[Plain(Char('A'))], "A", "", "The same on a slip; with all its fields", along(R::AddOnSlip)),
    row(Rowing, &[Plain(Char('e'))], "e", "change", "Change the seedling: its number, parents, place", along(R::Change)),
    row(Rowing, &[Plain(Char('y'))], "y", "", "Add more of the same cross", along(R::Copy)),
    row(Rowing, &[Plain(Char('X')), Plain(Delete)], "X or Delete", "", "Drop the seedling; from the row, where nothing was noted of it: asked once", along(R::DropSeedling)),
    row(Rowing, &[Plain(Char('u'))], "u", "undo", "Take back the last note; or the last change of another page where that came later", Is(Message::Undo)),
    row(Rowing, &[Control(Char('r'))], "Ctrl-R", "", "Do again what was taken back", Is(Message::Redo)),
    row(Noting, &[Plain(Enter)], "Enter", "save, next", "Save the line; on a walk go on to the next plant, which an empty line does too", along(R::Give)),
    row(Noting, &[Plain(Down)], "Down", "next plant", "The next plant; nothing is noted of this one: walk, decision or bloom go on there", to(Movement::Down)),
    row(Noting, &[Plain(Up)], "Up", "", "The plant before; in the same way", to(Movement::Up)),
    row(Noting, &[Plain(Esc)], "Esc", "end", "Drop the line; a walk ends", along(R::Drop)),
    row(Ordering, &[Plain(Enter), Plain(Char('e'))], "Enter or e", "change", "Change the figure: a need's stems, weeks or words, money, a bed; of a variety the tubers to buy", order(O::Change)),
    row(Ordering, &[Digit], "0 to 9", "", "The same; the digit is typed", Of(|c| Message::Order(O::Digit(c)))),
    row(Ordering, &[Plain(Char('+')), Plain(Char('='))], "+", "", "A step more: a stem, 10.00, a metre or a foot, a day, a pack", order(O::Step(1))),
    row(Ordering, &[Plain(Char('-'))], "-", "", "A step less", order(O::Step(-1))),
    row(Ordering, &[Plain(Right), Plain(Char('l'))], "Right or l", "the order", "To the order: what is bought and planted", order(O::Side(Side::Bought))),
    row(Ordering, &[Plain(Left), Plain(Char('h'))], "Left or h", "", "To needs and means", order(O::Side(Side::Given))),
    row(Ordering, &[Plain(Char('m'))], "m", "mend", "Where needs fall short: what would mend it at least cost", order(O::Mend)),
    row(Ordering, &[Plain(Char('d'))], "d", "do without", "What doing without it costs", order(O::Without)),
    row(Ordering, &[Plain(Char('g'))], "g", "season", "The season: how it goes so far, stems needed and expected by week, and the chance that each need is met", Is(Message::OpenSeason)),
    row(Ordering, &[Plain(Char('a'))], "a", "add", "Add a need", order(O::Add)),
    row(Ordering, &[Plain(Char('V'))], "V", "", "Add an event: a day, and so many of each piece, such as 12 table bowl", order(O::AddKind(Kind::Event))),
    row(Ordering, &[Plain(Char('R'))], "R", "", "Add a round: pieces on the same day of every week", order(O::AddKind(Kind::Round))),
    row(Ordering, &[Plain(Char('o'))], "o", "", "Open the event or the round, or fold it: the needs that it comes to", order(O::Fold)),
    row(Ordering, &[Plain(Char('B'))], "B", "", "Add a bed", order(O::AddKind(Kind::Bed))),
    row(Ordering, &[Plain(Char('T'))], "T", "", "Add a supplier's terms: postage, free from, least order, last day", order(O::AddKind(Kind::Terms))),
    row(Ordering, &[Plain(Char('E'))], "E", "slip", "All of it on a slip: the need, the bed, the supplier's terms, or the season with the money", order(O::Slip)),
    row(Ordering, &[Plain(Char('y'))], "y", "", "Copy the need; the bed or the supplier's terms", order(O::Copy)),
    row(Ordering, &[Plain(Char('x')), Plain(Delete)], "x", "", "Take the need away; of a variety let the quantity be chosen again", order(O::Remove)),
    row(Ordering, &[Plain(Char('f'))], "f", "", "Fix a variety's tubers; any of the list", order(O::Fix)),
    row(Ordering, &[Plain(Char('b'))], "b", "", "Buy the shortlist only; or anything again", order(O::Shortlist)),
    row(Ordering, &[Plain(Char('u'))], "u", "undo", "Take back the last change; on whatever page it was made", Is(Message::Undo)),
    row(Ordering, &[Plain(Char('c')), Plain(Char('C'))], "c or C", "surer", "What it costs to be surer, 50 to 99 of 100: every need; with C the one under the cursor alone", Of(|c| Message::Order(O::Surer { alone: c == 'C' }))),
    row(Ordering, &[Plain(Char('s')), Plain(Char('A'))], "s or A", "solve", "Solve again, after a stop; with A for a usual season, which costs less and is proved, or again as sure as asked", Of(|c| Message::Order(if c == 'A' { O::Aim } else { O::Solve }))),
    row(Ordering, &[Plain(Esc)], "Esc", "stop", "Stop solving: the best order found is shown, and how far it may be from the least", order(O::Stop)),
    row(Ordering, &[Control(Char('r'))], "Ctrl-R", "", "Do again what was taken back", Is(Message::Redo)),
    row(Beginning, &[Plain(Char('b')), Plain(Char('a')), Plain(Enter)], "b", "begin", "Begin an order: the season, the first bed, the first need", order(O::Begin)),
    row(Reckoning, &[Plain(Enter)], "Enter", "keep", "Keep the line, and solve again", order(O::Give)),
    row(Reckoning, &[Plain(Esc)], "Esc", "drop the line", "Drop the line", order(O::Drop)),
    row(Stocking, &[Digit], "1 to 9, 0", "note", "Note along the shelf: 1 lifted, 2 divided, 3 stored, 4 lost, 5 sound, 6 sold, 7 promised, 8 planted, 9 keep, 0 any words", Of(|c| Message::Stock(S::Walk(c)))),
    row(Stocking, &[Plain(Enter), Plain(Char('l'))], "Enter or l", "in full", "Everything of the plant's tubers: by place and year, promises, losses, its entries", Is(Message::OpenWhy)),
    row(Stocking, &[Plain(Char('a'))], "a", "plant", "Name a plant that is not shown; a seedling or a variety of your list", stock(S::Add)),
    row(Stocking, &[Plain(Char('p'))], "p", "place", "Where it happens; of the notes to come", stock(S::Place)),
    row(Stocking, &[Plain(Char('t'))], "t", "day", "The day, and who notes; of the notes to come", stock(S::Day)),
    row(Stocking, &[Plain(Char('/'))], "/", "find", "Find by words; of a number, a name, a place, or who something is promised to", stock(S::Find)),
    row(Stocking, &[Plain(Char('u'))], "u", "undo", "Take back the last change; on whatever page it was made", Is(Message::Undo)),
    row(Stocking, &[Control(Char('r'))], "Ctrl-R", "", "Do again what was taken back", Is(Message::Redo)),
    row(Counting, &[Plain(Enter)], "Enter", "give", "Give the line; with nothing on it go to the next plant", stock(S::Give)),
    row(Counting, &[Plain(Down)], "Down", "", "To the next plant, with nothing noted of this one", to(Movement::Down)),
    row(Counting, &[Plain(Up)], "Up", "", "To the plant before", to(Movement::Up)),
    row(Counting, &[Plain(Esc)], "Esc", "drop the line", "Drop the line", stock(S::Drop)),
    row(Tagging, &[Plain(Char('p'))], "p", "print", "Print what is picked: pages, a table for a label printer, or text", tags(T::Print)),
    row(Tagging, &[Plain(Char(' ')), Plain(Char('m'))], "Space or m", "pick", "Pick it for a tag, or let it go; it is marked +", tags(T::Pick)),
    row(Tagging, &[Plain(Char('a'))], "a", "all shown", "Pick all that are shown; again: let them go", tags(T::PickShown)),
    row(Tagging, &[Digit], "1 to 9", "", "The kind of tag: row stake, sale tag, tuber label", Of(|c| Message::Tags(T::Kind(c)))),
    row(Tagging, &[Plain(Char('n'))], "n", "copies", "How many copies there are of the one under the cursor", tags(T::CopiesOfOne)),
    row(Tagging, &[Plain(Char('N'))], "N", "", "The same; of each plant without a figure of its own", tags(T::CopiesOfAll)),
    row(Tagging, &[Plain(Char('v'))], "v", "price", "What one costs, of the one under the cursor; none for no price", tags(T::PriceOfOne)),
    row(Tagging, &[Plain(Char('V'))], "V", "", "The same; of each plant without a price of its own", tags(T::PriceOfAll)),
    row(Tagging, &[Plain(Char('b'))], "b", "by stock", "Go by the stock book; as many tags as are free to sell, at its price; again: not", tags(T::ByBook)),
    row(Tagging, &[Plain(Char('w'))], "w", "price list", "Write a price list of what is free to sell; from white to dark, with drawings, or a table", tags(T::Prices(SaleOrder::Colour))),
    row(Tagging, &[Plain(Char('W'))], "W", "", "The same; by name", tags(T::Prices(SaleOrder::Name))),
    row(Tagging, &[Plain(Char('f'))], "f", "", "The label to begin at; on a sheet that is half used", tags(T::From)),
    row(Tagging, &[Plain(Char('#'))], "#", "", "Number the copies, such as 3 of 12; again: not", tags(T::Numbered)),
    row(Tagging, &[Plain(Char('/'))], "/", "find", "Find by words; of a number, name or form, or how it stands: kept, held, culled, shortlist", tags(T::Find)),
    row(Tagging, &[Plain(Enter), Plain(Char('l'))], "Enter or l", "whole tag", "The whole tag as it will print", Is(Message::OpenWhy)),
    row(Tagging, &[Plain(Char('r'))], "r", "refused", "What is refused, and why; or to be asked about", Is(Message::OpenRefused)),
    row(Tagging, &[Plain(Char('s'))], "s", "sheet", "The next sheet or roll; that this kind is printed on", tags(T::Sheet)),
    row(Tagging, &[Plain(Char('c'))], "c", "colour", "Drawings in colour, or black", tags(T::Coloured)),
    row(Tagging, &[Plain(Char('o'))], "o", "", "Move what is printed; in mm to the right and down", tags(T::Offset)),
    row(Tagging, &[Plain(Char('t'))], "t", "", "Print a test page; to align the sheet by", tags(T::TestPage)),
    row(Tagging, &[Plain(Char('u'))], "u", "", "Take back the last change; of list, row or order", Is(Message::Undo)),
    row(Tagging, &[Control(Char('r'))], "Ctrl-R", "", "Do again what was taken back", Is(Message::Redo)),
    row(Naming, &[Plain(Enter)], "Enter", "give", "Give the line: write the file; again: replace the one that is there", tags(T::Give)),
    row(Naming, &[Plain(Esc)], "Esc", "drop the line", "Drop the line: all is as it was before", tags(T::Drop)),
    row(Filling, &[Plain(Enter)], "Enter", "next field", "Give the field and go to the next", fill(F::Give)),
    row(Filling, &[Control(Char('s')), Plain(Function(2))], "Ctrl-S", "save", "Save all of the slip", fill(F::Save)),
    row(Filling, &[Plain(Tab)], "Tab", "offered", "Put the next value that is offered on the line; with none, give the field", fill(F::Offered)),
    row(Filling, &[Plain(BackTab)], "Shift-Tab", "", "The field before", to(Movement::Up)),
    row(Filling, &[Plain(Esc)], "Esc", "leave", "Leave without saving: asked again where something was typed", fill(F::Close)),
    row(List, &[Plain(Down), Plain(Char('j'))], "Down or j", "", "Down a row", to(Movement::Down)),
    row(List, &[Plain(Up), Plain(Char('k'))], "Up or k", "", "Up a row", to(Movement::Up)),
    row(List, &[Plain(PageDown)], "Page Down", "", "Down half a window; ten rows of a sheet, five forms", to(Movement::PageDown)),
    row(List, &[Plain(PageUp)], "Page Up", "", "Up as many", to(Movement::PageUp)),
    row(List, &[Plain(Home)], "Home", "", "To the first", to(Movement::First)),
    row(List, &[Plain(End)], "End", "", "To the last", to(Movement::Last)),
    row(Line, &[Printable], "any character", "", "Write at the cursor; what is pasted too", Of(|c| Message::Edit(Edit::Write(c.to_string())))),
    row(Line, &[Plain(Backspace)], "Backspace", "", "Erase a letter; the one before the cursor", edit(Edit::Erase)),
    row(Line, &[Plain(Delete)], "Delete", "", "Erase the next letter; the one under the cursor", edit(Edit::EraseNext)),
    row(Line, &[Control(Char('w')), Control(Backspace)], "Ctrl-W", "", "Erase a word; the one before the cursor", edit(Edit::EraseWord)),
    row(Line, &[Control(Char('u'))], "Ctrl-U", "", "Erase to the start; all before the cursor", edit(Edit::EraseToStart)),
    row(Line, &[Control(Char('k'))], "Ctrl-K", "", "Erase to the end; all from the cursor on", edit(Edit::EraseToEnd)),
    row(Line, &[Plain(Left)], "Left", "", "A character to the left", edit(Edit::Left)),
    row(Line, &[Plain(Right)], "Right", "", "A character to the right", edit(Edit::Right)),
    row(Line, &[Control(Left)], "Ctrl-Left", "", "A word to the left", edit(Edit::WordLeft)),
    row(Line, &[Control(Right)], "Ctrl-Right", "", "A word to the right", edit(Edit::WordRight)),
    row(Line, &[Plain(Home), Control(Char('a'))], "Home or Ctrl-A", "", "To the start of the line", edit(Edit::Start)),
    row(Line, &[Plain(End), Control(Char('e'))], "End or Ctrl-E", "", "To its end", edit(Edit::End)),
    row(Page, &[Plain(Char('w'))], "w", "why", "Everything in full: why, how sure, what speaks against it", Is(Message::OpenWhy)),
    row(Pages, &[Plain(Tab)], "Tab", "page", "Next page", Is(Message::NextPage)),
    row(Pages, &[Plain(BackTab)], "Shift-Tab", "", "Previous page", Is(Message::PreviousPage)),
    row(Page, &[Plain(Char(','))], ",", "", "Your settings: units, frosts, what money is in, your name, rules", Is(Message::OpenSettings)),
    row(Page, &[Plain(Char('F'))], "F", "", "Make a folder of your own: where, with what in it, and its first settings", Is(Message::OpenStart)),
    row(Pages, &[Control(Char('k')), Plain(Char(':'))], ": or Ctrl-K", "jump", "Find anything and go there: a variety, seedling, form, trait, need, bed, supplier or command", jump(J::Open)),
    row(Jumping, &[Plain(Enter)], "Enter", "go there", "Go to the place under the cursor; a command is done, on its page", jump(J::Give)),
    row(Jumping, &[Plain(Esc)], "Esc", "back", "Close the line: all is as it was before", jump(J::Drop)),
    row(Page, &[Plain(Char('?'))], "?", "keys", "This list of keys", Is(Message::OpenHelp)),
    row(Page, &[Plain(Char('q'))], "q", "quit", "Quit", Is(Message::Quit)),
    row(Helping, &[Plain(Esc)], "Esc", "close", "Clear what was typed; else close the help", Is(Message::ClearHelp)),
    row(Helping, &[Plain(Enter), Plain(Char('?'))], "Enter or ?", "", "Close the help", Is(Message::CloseSheet)),
    row(Helping, &[Printable], "any character", "", "Find a key by what it does", Of(|c| Message::Edit(Edit::Write(c.to_string())))),
    row(Helping, &[Plain(Down)], "Down", "scroll", "Scroll down a row", to(Movement::Down)),
    row(Sheet, &[Plain(Down), Plain(Char('j'))], "Down", "scroll", "Scroll down a row", to(Movement::Down)),
    row(Sheet, &[Plain(Char(' '))], "Space", "", "Scroll down ten rows", to(Movement::PageDown)),
    row(Sheet, &[Plain(Esc), Plain(Enter), Plain(Char('q')), Plain(Char('w')), Plain(Char('?'))], "Esc", "back", "Close the sheet", Is(Message::CloseSheet)),
    row(Small, &[Plain(Char('q')), Control(Char('c'))], "q or Ctrl-C", "quit", "Quit: no other key does anything there", Is(Message::Quit)),
    row(Anywhere, &[Plain(Function(1))], "F1", "keys", "This list of keys; also while typing", Is(Message::OpenHelp)),
    row(Anywhere, &[Control(Char('c'))], "Ctrl-C", "quit", "Quit; also while typing", Is(Message::Quit)),
    row(Narrow, &[Plain(Tab)], "Tab", "page", "Next page: this one has no room in the window", Is(Message::NextPage)),
    row(Narrow, &[Plain(BackTab)], "Shift-Tab", "", "Previous page", Is(Message::PreviousPage)),
    row(Narrow, &[Plain(Char('q')), Control(Char('c'))], "q or Ctrl-C", "quit", "Quit: no other key does anything there", Is(Message::Quit)),
];

/// The message of a press in this mode.
pub fn dispatch(event: KeyEvent, mode: Mode) -> Option<Message> {
    let in_mode = |mode: Mode| {
        let own = BINDINGS.iter().filter(move |row| row.mode == mode);
        own.flat_map(|row| row.presses.iter().map(move |press| (row, press)))
            .find(|(_, press)| press.takes(event))
    };
    let (row, _) = mode.open().find_map(in_mode)?;
    match (&row.meaning, event.code) {
        (Is(message), _) => Some(message.clone()),
        (Of(message), Char(c)) => Some(message(c)),
        (Of(_), _) => None,
    }
}

impl Press {
    fn takes(self, event: KeyEvent) -> bool {
        let control = event.modifiers.contains(KeyModifiers::CONTROL);
        let alt = event.modifiers.contains(KeyModifiers::ALT);
        match (self, event.code) {
            (Control(code), pressed) => control && !alt && pressed == code,
            (Plain(code), pressed) => !control && !alt && pressed == code,
            (Digit, Char(c)) => !control && !alt && c.is_ascii_digit(),
            (Printable, Char(c)) => !control && !alt && !c.is_control(),
            _ => false,
        }
    }
}

impl Binding {
    /// Whether its first key comes to it in this mode: its own is open, and none before that takes
    /// the key.
    fn is_reached(&self, mode: Mode) -> bool {
        let nearer: Vec<Mode> = mode.open().take_while(|open| *open != self.mode).collect();
        let is_open = mode.open().any(|open| open == self.mode);
        let takes = |row: &Binding| row.presses.contains(&self.presses[0]);
        is_open
            && !BINDINGS
                .iter()
                .any(|row| nearer.contains(&row.mode) && takes(row))
    }

    /// Whether the row's mode can be open at all.
    fn is_open(&self) -> bool {
        self.mode != Pages || super::Page::ALL.len() > 1
    }
}
