// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QString>

namespace ramplight::test {

/// Puts this program into a named network namespace; ends it where it may not. For a child between
/// fork() and exec().
void enterNamespace(const QByteArray& name);

/// Two machines of a test's own, each a network namespace, with a cable between them. Needs root
/// and iproute2. Gone with the object.
class TwoMachines
{
public:
    /// Why this machine cannot have them, in words; empty: it can.
    [[nodiscard]] static QString whyNot();

    TwoMachines();
    ~TwoMachines();
    TwoMachines(const TwoMachines&) = delete;
    TwoMachines& operator=(const TwoMachines&) = delete;

    /// Names of the namespaces.
    [[nodiscard]] QString here() const { return m_here; }
    [[nodiscard]] QString there() const { return m_there; }
    /// Of the machine there.
    [[nodiscard]] static QString addressThere();

    // ---- what happens to the cable; the system's words where it cannot be done
    /// Pulled: both ends see that it is out.
    [[nodiscard]] QString pull() { return link(false); }
    [[nodiscard]] QString plugIn() { return link(true); }
    /// What is sent from there does not arrive any more, and nobody sees it; the other way it does.
    [[nodiscard]] QString loseAnswers();
    [[nodiscard]] QString findAnswers();
    /// What is sent from here does not arrive any more, and nobody sees it; the other way it does.
    [[nodiscard]] QString loseQuestions();
    [[nodiscard]] QString findQuestions();

private:
    QString link(bool up);

    QString m_here;
    QString m_there;
};

} // namespace ramplight::test
