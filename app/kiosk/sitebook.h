// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "domain/housecatalogue.h"
#include "domain/words.h"
#include "kiosk/desk.h"
#include "kiosk/timewords.h"

#include <QObject>

namespace ramplight {

/// The site as last read: names, bays, house rules, for everything that needs words. Reads again
/// when the desk says that the site changed, and goes back only with another store: a server that
/// was brought back from a backup knows less. GUI thread.
class SiteBook : public QObject
{
    Q_OBJECT

public:
    /// Desk and file outlive the book; file is the catalogue as shipped.
    SiteBook(Desk& desk, const Catalogue& file, QObject* parent = nullptr);

    void refresh();
    /// Takes a state that came with an outcome, so that nobody waits for the next reading.
    void take(const SiteState& site);

    [[nodiscard]] bool isRead() const { return m_read; }
    [[nodiscard]] const SiteState& site() const { return m_site; }
    [[nodiscard]] const HouseRules& rules() const { return m_site.rules; }
    /// As it holds in this house; stays where it is and follows the site.
    [[nodiscard]] const Catalogue& catalogue() const { return m_catalogue; }
    /// The same without what the house changed.
    [[nodiscard]] const Catalogue& base() const { return baseCatalogue(m_file, m_site); }
    [[nodiscard]] const TimeWords& times() const { return m_times; }
    /// "Ines"; "somebody who left" once the name is erased; empty for nobody.
    [[nodiscard]] QString nameOf(PersonId person) const;
    /// "1 Wheels"; empty for no bay.
    [[nodiscard]] QString bayOf(BayId bay) const;

signals:
    void changed();
    /// The database is damaged, and nothing was ever read from it. Words.
    void damaged(const QString& words);

private:
    void followStore();
    [[nodiscard]] bool isNews(const SiteState& site) const;
    void use(const SiteState& site);

    Desk& m_desk;
    const Catalogue& m_file;
    Catalogue m_catalogue;
    SiteState m_site;
    TimeWords m_times;
    bool m_read = false;
    bool m_away = false;         ///< the store's server
    bool m_anotherStore = false; ///< answers since the site was read last
    int m_turn = 0;              ///< what was asked before belongs to the store of that time
};

} // namespace ramplight
