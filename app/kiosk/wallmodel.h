// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/cardfeed.h"
#include "kiosk/listbase.h"
#include "kiosk/planservice.h"
#include "kiosk/sitebook.h"
#include "kiosk/ticker.h"
#include "kiosk/wallrow.h"

#include <QtQmlIntegration>

namespace ramplight {

/// One button of the filter row.
struct SkillRow
{
    QString skill; ///< id for WallModel.skill
    QString title;
    int cars = 0; ///< cars on which something of this skill can be done now

    [[nodiscard]] QString key() const { return skill; }
    friend bool operator==(const SkillRow&, const SkillRow&) = default;
};

/// The filter row. Roles: skill, title, cars.
class SkillCounts : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the wall")

public:
    explicit SkillCounts(QObject* parent = nullptr);
    void setRows(std::vector<SkillRow> rows);
};

/// One name of the list that the wall can be filtered by.
struct WallPersonRow
{
    int personId = 0; ///< for WallModel.person
    QString name;
    int cars = 0; ///< on which something is in hand of this person, or handed to them
    QString carsWords;

    [[nodiscard]] int key() const { return personId; }
    friend bool operator==(const WallPersonRow&, const WallPersonRow&) = default;
};

/// Who works here, by name, and whoever else has something on the wall. Roles: WallPersonRow's
/// names.
class WallPeople : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the wall")

public:
    explicit WallPeople(QObject* parent = nullptr);
    void setRows(std::vector<WallPersonRow> rows);
};

/// Every open car as a card. Roles are the names of WallRow's members: required property string
/// stockNumber, required property var marks, required property list<string> lineTitles ...
/// Order: the earliest promise first, then the state, then the stock number; under a skill filter
/// the cars on which that skill can go on come first, and its lines lead the card. GUI thread.
class WallModel : public ListBase
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    // Of all open cars, whatever the filter shows.
    Q_PROPERTY(int inPrep READ inPrep NOTIFY countsChanged FINAL)
    /// Those with the hatch: a card whose safety waits for second persons alone is not one.
    Q_PROPERTY(int heldBySafety READ heldBySafety NOTIFY countsChanged FINAL)
    Q_PROPERTY(int ready READ ready NOTIFY countsChanged FINAL)
    Q_PROPERTY(int late READ late NOTIFY countsChanged FINAL)
    /// False until the cards were read for the first time: show the waiting state.
    Q_PROPERTY(bool loaded READ loaded NOTIFY countsChanged FINAL)
    /// No open car at all: show the empty state ("Bring a car in").
    Q_PROPERTY(bool empty READ isEmpty NOTIFY countsChanged FINAL)
    Q_PROPERTY(ramplight::SkillCounts* skills READ skills CONSTANT FINAL)
    Q_PROPERTY(ramplight::WallPeople* people READ people CONSTANT FINAL)
    /// Skill id, or empty for all.
    Q_PROPERTY(QString skill READ skill WRITE setSkill NOTIFY filterChanged FINAL)
    /// Person id whose work is shown (in hand, handed to, sent back), 0 for all.
    Q_PROPERTY(int person READ person WRITE setPerson NOTIFY filterChanged FINAL)
    Q_PROPERTY(QString personName READ personName NOTIFY filterChanged FINAL) ///< or empty
    /// Part of a stock number, registration or car.
    Q_PROPERTY(QString text READ text WRITE setText NOTIFY filterChanged FINAL)
    /// Words for the head of a filtered wall: "Wheels · 6"; empty when nothing is filtered.
    Q_PROPERTY(QString filterWords READ filterWords NOTIFY filterChanged FINAL)
    /// How many lines a card has room for.
    Q_PROPERTY(int lineLimit READ lineLimit WRITE setLineLimit NOTIFY filterChanged FINAL)

public:
    WallModel(CardFeed& feed, SiteBook& book, Ticker& ticker, PlanService& plans,
              QObject* parent = nullptr);

    [[nodiscard]] int inPrep() const { return m_inPrep; }
    [[nodiscard]] int heldBySafety() const { return m_held; }
    [[nodiscard]] int ready() const { return m_ready; }
    [[nodiscard]] int late() const { return m_late; }
    [[nodiscard]] bool loaded() const { return m_feed.isRead(); }
    [[nodiscard]] bool isEmpty() const { return m_feed.isRead() && m_feed.cards().empty(); }
    [[nodiscard]] SkillCounts* skills() { return &m_skills; }
    [[nodiscard]] WallPeople* people() { return &m_people; }
    [[nodiscard]] QString skill() const { return m_skill; }
    void setSkill(const QString& skill);
    [[nodiscard]] int person() const { return m_person.value; }
    void setPerson(int person);
    [[nodiscard]] QString personName() const { return m_book.nameOf(m_person); }
    [[nodiscard]] QString text() const { return m_text; }
    void setText(const QString& text);
    [[nodiscard]] QString filterWords() const;
    [[nodiscard]] int lineLimit() const { return m_lineLimit; }
    void setLineLimit(int limit);

    Q_INVOKABLE void clearFilter();
    /// Reads the cards again (a pull by hand; changes come by themselves).
    Q_INVOKABLE void refresh() { m_feed.refresh(); }

signals:
    void countsChanged();
    void filterChanged();

private:
    struct Forecast
    {
        QString words = {};
        QString lead = {};
        QString note = {};
        bool late = false; ///< its day is over, or will be
    };
    void rebuild();
    [[nodiscard]] std::vector<WallPersonRow> peopleRows() const;
    /// Without a plan it has its note alone.
    [[nodiscard]] Forecast forecastOf(const CarCard& card) const;

    CardFeed& m_feed;
    SiteBook& m_book;
    Ticker& m_ticker;
    PlanService& m_plans;
    SkillCounts m_skills;
    WallPeople m_people;
    QString m_skill;
    PersonId m_person;
    QString m_text;
    int m_lineLimit = 4;
    int m_inPrep = 0;
    int m_held = 0;
    int m_ready = 0;
    int m_late = 0;
};

} // namespace ramplight
