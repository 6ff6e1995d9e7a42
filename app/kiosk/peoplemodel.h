// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/cardfeed.h"
#include "kiosk/listbase.h"
#include "kiosk/sitebook.h"
#include "kiosk/ticker.h"

#include <QtQmlIntegration>

namespace ramplight {

struct PersonRow
{
    int personId = 0;
    QString name;
    QStringList skills;   ///< ids
    QString skillWords;   ///< "wheels, checks"
    QString skillSection; ///< heading: the first skill
    QStringList rights;   ///< ids
    QString rightWords;
    bool active = true;
    QString onCarId;
    QString onStockNumber; ///< empty when no timer of theirs runs
    QString onTitle;       ///< the operation
    QString onWords;       ///< "R-208 · 38 min"

    [[nodiscard]] int key() const { return personId; }
    friend bool operator==(const PersonRow&, const PersonRow&) = default;
};

/// People by their first skill, then by name; roles are PersonRow's names. Use skillSection for a
/// section heading. GUI thread.
class PeopleModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    /// Only people with this skill; empty: all.
    Q_PROPERTY(QString skill READ skill WRITE setSkill NOTIFY skillChanged FINAL)

public:
    PeopleModel(CardFeed& feed, SiteBook& book, Ticker& ticker, bool withInactive = false,
                QObject* parent = nullptr);

    [[nodiscard]] QString skill() const { return m_skill; }
    void setSkill(const QString& skill);
    [[nodiscard]] const std::vector<PersonRow>& rows() const { return stored<PersonRow>(); }

signals:
    void skillChanged();

private:
    void rebuild();

    CardFeed& m_feed;
    SiteBook& m_book;
    Ticker& m_ticker;
    bool m_withInactive;
    QString m_skill;
};

} // namespace ramplight
