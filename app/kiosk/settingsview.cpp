// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/settingsview.h"

#include "kiosk/sitechangewords.h"

#include <algorithm>

namespace ramplight {

namespace {

/// A screen full and some more; the ledger has all of them.
constexpr std::size_t mostShown = 60;

} // namespace

SettingsView::SettingsView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker,
                           QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_book(book)
    , m_rules(desk, session, book)
    , m_tools(desk, session, book, ticker)
    , m_catalogue(desk, session, book)
    , m_competence(desk, session, book, ticker)
    , m_times(desk, session, book, ticker)
    , m_files(desk, session, book, ticker)
    , m_sites(desk, session, book, ticker)
{
    connect(&book, &SiteBook::changed, this, [this] {
        if (m_open)
            readChanges();
    });
}

void SettingsView::refresh()
{
    m_open = true;
    m_rules.begin();
    m_files.refresh();
    readChanges();
}

void SettingsView::readChanges()
{
    whenReady(m_desk.siteHistory(), this,
              [this](const tl::expected<std::vector<SiteEnvelope>, Failure>& history) {
                  if (history)
                      show(*history);
                  else
                      emit m_desk.storeFault(words(history.error()));
              });
}

void SettingsView::show(const std::vector<SiteEnvelope>& history)
{
    std::vector<SiteChangeRow> rows;
    SiteState state;
    for (const SiteEnvelope& envelope : history) {
        const SiteChangeWords said = siteChangeWords(state, envelope.event, m_book);
        apply(state, envelope);
        if (said.title.isEmpty())
            continue;
        const QString when = m_book.times().full(envelope.at);
        // An alarm is raised by nobody.
        const QString by =
            envelope.by.isNull() ? when : tr("%1, %2").arg(m_book.nameOf(envelope.by), when);
        rows.push_back({static_cast<int>(envelope.seq), said.title, said.detail, by});
    }
    std::ranges::reverse(rows);
    if (rows.size() > mostShown)
        rows.resize(mostShown);
    m_changes.setRows(std::move(rows));
}

} // namespace ramplight
