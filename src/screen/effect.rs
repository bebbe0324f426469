//! What only the edge can do about what happens on the screen.

/// What only the edge can do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effect {
    /// End the program.
    Quit,
    /// Save [`ChoosePage::list`](super::choose_page::ChoosePage::list), and answer
    /// [`Message::Saved`](super::Message::Saved) or [`Message::NotSaved`](super::Message::NotSaved).
    SaveVarieties,
    /// Look at what [`ChoosePage::asks`](super::choose_page::ChoosePage::asks) for, and answer
    /// [`Message::Looked`](super::Message::Looked).
    Look,
    /// Save [`ChoosePage::own_words`](super::choose_page::ChoosePage::own_words), and answer
    /// [`Message::WordsSaved`](super::Message::WordsSaved).
    SaveWords,
    /// Put [`RowPage::pending_entry`](super::row_page::RowPage::pending_entry) on the disk, and
    /// answer [`Message::Entered`](super::Message::Entered) or [`Message::NotEntered`](super::Message::NotEntered).
    AddEntry,
    /// Save [`RowPage::pending_seedlings`](super::row_page::RowPage::pending_seedlings), and answer
    /// the same.
    SaveSeedlings,
    /// Put [`StockPage::pending`](super::stock_page::StockPage::pending) on the disk, and answer
    /// [`Message::Stocked`](super::Message::Stocked) or [`Message::NotStocked`](super::Message::NotStocked).
    AddStock,
    /// Save [`OrderPage::plan`](super::order_page::OrderPage::plan), and answer
    /// [`Message::OrderSaved`](super::Message::OrderSaved) or [`Message::OrderNotSaved`](super::Message::OrderNotSaved).
    SaveOrder,
    /// Save [`App::pending_settings`](super::App::pending_settings). Where what is shown hangs on what
    /// was changed the screen is opened anew ([`App::go_on_in`](super::App::go_on_in)); else answer
    /// [`Message::SettingsSaved`](super::Message::SettingsSaved) or [`Message::NotKept`](super::Message::NotKept).
    SaveSettings,
    /// Make the folder [`App::pending_start`](super::App::pending_start) and open the screen anew in
    /// it, or answer [`Message::NotKept`](super::Message::NotKept).
    MakeFolder,
    /// Write [`TagsPage::pending`](super::tags_page::TagsPage::pending), and answer
    /// [`Message::Printed`](super::Message::Printed) or [`Message::NotPrinted`](super::Message::NotPrinted).
    PrintTags,
}
