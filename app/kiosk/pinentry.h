// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "access/secret.h"

#include <QObject>
#include <QtQmlIntegration>

namespace ramplight {

/// The digits that somebody types on a PIN pad. QML sees how many there are and nothing else.
/// GUI thread.
class PinEntry : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(int length READ length NOTIFY changed FINAL)
    /// Digits that the house asks for: how many dots the pad shows.
    Q_PROPERTY(int digits READ digits CONSTANT FINAL)

public:
    explicit PinEntry(int digits, QObject* parent = nullptr);

    [[nodiscard]] int length() const { return static_cast<int>(m_pin.size()); }
    [[nodiscard]] int digits() const { return m_digits; }

    /// 0 to 9; anything else is ignored.
    Q_INVOKABLE void press(int digit);
    Q_INVOKABLE void erase();
    Q_INVOKABLE void clear();
    /// A whole PIN at once, from a pad that collects the digits itself.
    Q_INVOKABLE void enter(const QString& digits);

    /// Hands the digits over and forgets them.
    [[nodiscard]] Secret take();
    [[nodiscard]] const Secret& secret() const { return m_pin; }

signals:
    void changed();
    /// As many digits as the house asks for are there.
    void filled();

private:
    Secret m_pin;
    int m_digits;
};

/// A PIN that is chosen: typed twice, checked against the house's rule. GUI thread.
class NewPin : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(ramplight::PinEntry* pad READ pad CONSTANT FINAL)
    /// The first round is done: it is typed again now.
    Q_PROPERTY(bool again READ again NOTIFY changed FINAL)
    /// Both rounds agree: take() has the PIN.
    Q_PROPERTY(bool ready READ isReady NOTIFY changed FINAL)
    /// The house's rule, or what was wrong with the last try.
    Q_PROPERTY(QString words READ words NOTIFY changed FINAL)

public:
    explicit NewPin(QObject* parent = nullptr);

    [[nodiscard]] PinEntry* pad() { return &m_pad; }
    [[nodiscard]] bool again() const { return m_again; }
    [[nodiscard]] bool isReady() const { return m_ready; }
    [[nodiscard]] QString words() const { return m_words; }

    Q_INVOKABLE void reset();
    /// For callers in C++: an own copy, so that a failed write can be tried again.
    [[nodiscard]] Secret copy() const { return m_first.clone(); }

signals:
    void changed();

private:
    void onFilled();

    PinEntry m_pad;
    Secret m_first;
    bool m_again = false;
    bool m_ready = false;
    QString m_words;
};

} // namespace ramplight
