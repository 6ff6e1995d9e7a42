// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/ask.h"
#include "kiosk/cardfeed.h"
#include "kiosk/carlists.h"
#include "kiosk/carview.h"
#include "kiosk/choices.h"
#include "kiosk/operationview.h"

#include <QObject>
#include <QtQmlIntegration>

#include <map>

namespace ramplight {

/// Signing the wheel's operation that is on the screen off together with others of its kind, of
/// whatever car: its readings are copied to each, where a wheel has none of its own. GUI thread.
class TogetherView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    /// The operation on the screen is begun work on a wheel, and there are others like it.
    Q_PROPERTY(bool possible READ possible NOTIFY changed FINAL)
    /// The other wheels: "K-8 · near side rear wheel".
    Q_PROPERTY(ramplight::Choices* wheels READ wheels CONSTANT FINAL)
    /// The readings of the wheel that is looked at, as they will be signed.
    Q_PROPERTY(ramplight::ReadingsModel* readings READ readings CONSTANT FINAL)
    Q_PROPERTY(QString lookedId READ lookedId NOTIFY changed FINAL)
    Q_PROPERTY(QString lookedWords READ lookedWords NOTIFY changed FINAL)
    /// "Your minutes are split evenly over 3 wheels."
    Q_PROPERTY(QString shareWords READ shareWords NOTIFY changed FINAL)
    Q_PROPERTY(ramplight::Ask* ask READ ask CONSTANT FINAL)

public:
    /// What it is built on; all outlive it.
    struct Around
    {
        Desk& desk;
        CarView& car;
        OperationView& operation;
        Session& session;
        SiteBook& book;
        CardFeed& feed;
        Ticker& ticker;
        const Catalogue& catalogue;
    };

    explicit TogetherView(Around around, QObject* parent = nullptr);

    [[nodiscard]] bool possible() const { return !m_wheels.rows().empty(); }
    [[nodiscard]] Choices* wheels() { return &m_wheels; }
    [[nodiscard]] ReadingsModel* readings() { return &m_readings; }
    [[nodiscard]] QString lookedId() const { return m_looked; }
    [[nodiscard]] QString lookedWords() const;
    [[nodiscard]] QString shareWords() const;
    [[nodiscard]] Ask* ask() { return &m_ask; }

    /// Nothing chosen, nothing corrected.
    Q_INVOKABLE void begin();
    /// Takes a wheel along, or leaves it out again.
    Q_INVOKABLE void choose(const QString& choiceId);
    Q_INVOKABLE void look(const QString& choiceId);
    /// Another value than the common one for the wheel that is looked at.
    Q_INVOKABLE void correct(const QString& rowId, const QString& text);
    Q_INVOKABLE void sign();

signals:
    void changed();
    void signedTogether();

private:
    [[nodiscard]] const Operation* base() const;
    void offer();
    void showReadings();

    Around m_around;
    Ask m_ask;
    Choices m_wheels;
    ReadingsModel m_readings;
    QString m_looked;
    /// By wheel, then by the reading's key.
    std::map<QString, std::map<QString, ReadingValue>> m_own;
};

} // namespace ramplight
