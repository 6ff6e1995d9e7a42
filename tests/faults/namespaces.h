// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QString>

namespace ramplight::test {

/// Puts this program into a network namespace that its parent has open, by the number of that; ends
/// it where it may not. For a child between fork() and exec().
void enterNamespace(const QByteArray& name);

/// Two machines of a test's own, each a network namespace, with a cable between them. Needs
/// iproute2, and root or user namespaces. Gone with the object.
class TwoMachines
{
public:
    /// Before the program has a second thread: who is not root enters a user namespace of their
    /// own, where the system lets them. Nothing for root.
    static void makeReady();
    /// Why this machine cannot have them, in words; empty: it can.
    [[nodiscard]] static QString whyNot();

    TwoMachines();
    ~TwoMachines();
    TwoMachines(const TwoMachines&) = delete;
    TwoMachines& operator=(const TwoMachines&) = delete;

    /// Numbers under which the namespaces are open.
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
    struct Probe
    {
    };
    explicit TwoMachines(Probe);
    QString link(bool up);

    int m_spaces[2] = {-1, -1};
    QString m_here;
    QString m_there;
    QString m_fault; ///< why there is no cable
};

} // namespace ramplight::test
