// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/choices.h"
#include "kiosk/planservice.h"

#include <QtQmlIntegration>

#include <optional>

namespace ramplight {

/// One change of the house that somebody puts together by touch: whose, from when, how long or how
/// much. Each question has a heading; one without is not asked. Use: begin(kind), choose, change().
/// GUI thread.
class WhatIfForm : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the what-if")
    Q_PROPERTY(Kind kind READ kind NOTIFY changed FINAL)
    Q_PROPERTY(QString title READ title NOTIFY changed FINAL)
    Q_PROPERTY(QString whomHead READ whomHead NOTIFY changed FINAL)
    Q_PROPERTY(QString firstHead READ firstHead NOTIFY changed FINAL)
    Q_PROPERTY(QString secondHead READ secondHead NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Choices* whom READ whom CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* first READ first CONSTANT FINAL)
    Q_PROPERTY(ramplight::Choices* second READ second CONSTANT FINAL)
    /// Everything is chosen.
    Q_PROPERTY(bool ready READ ready NOTIFY changed FINAL)
    /// Work waits for a part, or is outside.
    Q_PROPERTY(bool somethingAwaited READ somethingAwaited NOTIFY plansChanged FINAL)

public:
    enum Kind { Nothing, Person, Bay, Hours, Away, Part, Promise };
    Q_ENUM(Kind)

    /// All outlive the form.
    WhatIfForm(SiteBook& book, Ticker& ticker, PlanService& plans, QObject* parent = nullptr);

    [[nodiscard]] Kind kind() const { return m_kind; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString whomHead() const;
    [[nodiscard]] QString firstHead() const;
    [[nodiscard]] QString secondHead() const;
    [[nodiscard]] Choices* whom() { return &m_whom; }
    [[nodiscard]] Choices* first() { return &m_first; }
    [[nodiscard]] Choices* second() { return &m_second; }
    [[nodiscard]] bool ready() const;
    [[nodiscard]] bool somethingAwaited() const;

    /// A Kind.
    Q_INVOKABLE void begin(int kind);
    Q_INVOKABLE void chooseWhom(const QString& id);
    Q_INVOKABLE void chooseFirst(const QString& id);
    Q_INVOKABLE void chooseSecond(const QString& id);

    /// Nothing while something is not chosen.
    [[nodiscard]] std::optional<planning::whatif::Change> change() const;

signals:
    void changed();
    void plansChanged();

private:
    void offerWhom();
    void offerFirst();
    void offerSecond();
    [[nodiscard]] std::vector<ChoiceRow> people() const;
    [[nodiscard]] std::vector<ChoiceRow> awaited() const;
    [[nodiscard]] std::vector<ChoiceRow> hoursOf(QDate day) const;
    /// From a day on, so many days on which the house works.
    [[nodiscard]] std::vector<QDate> workingDays(QDate from, int count) const;
    [[nodiscard]] QDate today() const;
    [[nodiscard]] QDate firstDay() const;
    [[nodiscard]] DaysAway span() const;

    SiteBook& m_book;
    Ticker& m_ticker;
    PlanService& m_plans;
    Kind m_kind = Nothing;
    Choices m_whom;
    Choices m_first;
    Choices m_second;
};

} // namespace ramplight
