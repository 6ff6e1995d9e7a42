// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "kiosk/sitesview.h"

#include "domain/words.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <span>
#include <utility>

namespace ramplight {

namespace {

// A few milliseconds of the store's thread each: what somebody touches gets its turn in between.
constexpr int sitesAtOnce = 4;

std::span<const Column<SiteRow>> siteColumns()
{
    static constexpr std::array all{
        Column<SiteRow>{"siteId", cell<&SiteRow::siteId>},
        Column<SiteRow>{"name", cell<&SiteRow::name>},
        Column<SiteRow>{"own", cell<&SiteRow::own>},
        Column<SiteRow>{"inPrep", cell<&SiteRow::inPrep>},
        Column<SiteRow>{"held", cell<&SiteRow::held>},
        Column<SiteRow>{"ready", cell<&SiteRow::ready>},
        Column<SiteRow>{"late", cell<&SiteRow::late>},
        Column<SiteRow>{"oldestWords", cell<&SiteRow::oldestWords>},
    };
    return all;
}

} // namespace

SitesModel::SitesModel(QObject* parent)
    : ListBase(std::make_unique<RowTable<SiteRow>>(siteColumns()), parent)
{
}

SitesView::SitesView(Desk& desk, Session& session, SiteBook& book, Ticker& ticker, QObject* parent)
    : QObject(parent)
    , m_desk(desk)
    , m_session(session)
    , m_book(book)
    , m_ticker(ticker)
{
    connect(&desk, &Desk::standingChanged, this, &SitesView::changed);
    connect(&session, &Session::personChanged, this, &SitesView::refresh);
    connect(&ticker, &Ticker::minute, this, &SitesView::refresh);
}

QString SitesView::asOfWords() const
{
    if (m_asOf.isNull())
        return {};
    const QString clock = m_book.times().clock(m_asOf);
    return m_facts.size() == 1 ? tr("1 site, as of %1").arg(clock)
                               : tr("%1 sites, as of %2").arg(m_facts.size()).arg(clock);
}

void SitesView::setLooking(bool looking)
{
    m_looking = looking;
    refresh();
}

void SitesView::refresh()
{
    if (m_looking && allowed()) {
        if (!m_reading)
            readAfter({}, ++m_round, {});
        m_reading = true;
        emit changed();
        return;
    }
    // Nobody else finds the figures on the screen, nor what is still on its way.
    ++m_round;
    m_reading = false;
    m_facts.clear();
    m_words.clear();
    m_asOf = {};
    show();
}

void SitesView::readAfter(const SiteId& site, int round, std::vector<SiteFacts> before)
{
    whenReady(m_desk.sitesAfter(site, sitesAtOnce), this,
              [this, round, all = std::move(before)](
                  const tl::expected<std::vector<SiteFacts>, Failure>& facts) mutable {
                  if (round != m_round)
                      return;
                  if (facts && !facts->empty()) {
                      std::ranges::copy(*facts, std::back_inserter(all));
                      readAfter(facts->back().site, round, std::move(all));
                      return;
                  }
                  m_reading = false;
                  m_words = facts ? QString() : ramplight::words(facts.error());
                  m_asOf = facts ? m_ticker.now() : Moment();
                  m_facts = facts ? std::move(all) : std::vector<SiteFacts>();
                  show();
              });
}

void SitesView::show()
{
    std::vector<SiteRow> rows;
    for (const SiteFacts& facts : m_facts) {
        SiteRow row{facts.site.text, facts.name, facts.site == m_desk.standing().site,
                    facts.inPrep,    facts.held, facts.ready,
                    facts.late,      {}};
        if (row.name.isEmpty())
            row.name = tr("not set up yet");
        if (!facts.oldestChange.isNull())
            row.oldestWords = m_book.times().since(facts.oldestChange, m_ticker.now());
        rows.push_back(std::move(row));
    }
    // This workshop first, then by name: always found at the same place.
    std::ranges::sort(rows, [](const SiteRow& a, const SiteRow& b) {
        if (a.own != b.own)
            return a.own;
        return a.name.localeAwareCompare(b.name) < 0;
    });
    m_rows.replace(std::move(rows));
    emit changed();
}

} // namespace ramplight
