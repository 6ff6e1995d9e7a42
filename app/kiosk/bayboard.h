// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/cardfeed.h"
#include "kiosk/listbase.h"
#include "kiosk/planservice.h"
#include "kiosk/sitebook.h"
#include "kiosk/ticker.h"

#include <QtQmlIntegration>

namespace ramplight {

/// A bay as the manager reads it from across the shop.
struct BoardRow
{
    int bayId = 0;
    int number = 0;
    QString name;
    bool free = true;
    QString carId;
    QString stockNumber;
    QString makeModel;
    int band = 0;           ///< Wall.Band of the car
    QString who;            ///< "Ines, Oskar"; empty when nobody is on it
    QString task;           ///< the operation in hand, or what the car waits for
    QString elapsedWords;   ///< "38 min of 1 h"; empty when nobody is on it
    double progress = 0;    ///< minutes on the job by its usual minutes, above 1 when over
    bool over = false;      ///< longer than usual
    QString forgottenWords; ///< "runs since 07:40: still working?"; empty
    int forgottenWork = 0;  ///< the operation with that timer, where it is put right
    QString restraintWords; ///< "do not move"
    QString nextStock;      ///< another car that comes next; empty when none is planned
    QString nextWords;      ///< "then T-322 16:19", "T-319 out, then T-307 Fri 08:00"; empty

    [[nodiscard]] int key() const { return bayId; }
    friend bool operator==(const BoardRow&, const BoardRow&) = default;
};

/// Somebody who is not on a car in a bay.
struct OutsideRow
{
    int personId = 0;
    QString name;
    bool onCar = false;  ///< works on a car that stands in no bay
    QString carId;       ///< of that car
    QString stockNumber; ///< of that car
    QString words;       ///< "K-8 · valet · 12 min", "runs since 07:40: still working?", "free"
    bool forgotten = false; ///< the timer probably was
    QString nextWords;      ///< "next Thu 14:00, K-9"; empty when nothing is planned

    [[nodiscard]] int key() const { return personId; }
    friend bool operator==(const OutsideRow&, const OutsideRow&) = default;
};

/// Work that cannot go on, and by what.
struct BlockedRow
{
    QString carId;
    int operationId = 0;
    QString stockNumber;
    QString title;
    QString words; ///< "mirror glass · due Thu", "mirror glass · was due yesterday"
    bool pastDue = false;

    [[nodiscard]] QString key() const { return carId + QString::number(operationId); }
    friend bool operator==(const BlockedRow&, const BlockedRow&) = default;
};

/// A list whose rows the board sets. Roles are the names of its rows' members. GUI thread.
class BoardList : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the bay board")

public:
    template <class Row>
    BoardList(std::span<const Column<Row>> columns, QObject* parent)
        : ListBase(std::make_unique<RowTable<Row>>(columns), parent)
    {
    }
    template <class Row>
    void set(std::vector<Row> rows)
    {
        replace(std::move(rows));
    }
};

/// The bays as they are now, who is outside them, and what is blocked. What comes next is the
/// plan's; without one it stays empty. GUI thread.
class BayBoard : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::BoardList* bays READ bays CONSTANT FINAL)
    Q_PROPERTY(ramplight::BoardList* outside READ outside CONSTANT FINAL)
    Q_PROPERTY(ramplight::BoardList* blocked READ blocked CONSTANT FINAL)

public:
    BayBoard(CardFeed& feed, SiteBook& book, Ticker& ticker, PlanService& plans,
             QObject* parent = nullptr);

    [[nodiscard]] BoardList* bays() { return &m_bays; }
    [[nodiscard]] BoardList* outside() { return &m_outside; }
    [[nodiscard]] BoardList* blocked() { return &m_blocked; }

private:
    void rebuild();
    [[nodiscard]] BoardRow rowOf(const Bay& bay) const;
    void showNext(BoardRow& row) const;
    [[nodiscard]] OutsideRow rowOf(const Person& person) const;

    CardFeed& m_feed;
    SiteBook& m_book;
    Ticker& m_ticker;
    PlanService& m_plans;
    BoardList m_bays;
    BoardList m_outside;
    BoardList m_blocked;
};

} // namespace ramplight
