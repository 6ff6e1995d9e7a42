// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QByteArray>
#include <QString>

#include <tl/expected.hpp>

#include <vector>

// What the program asks of a printing system; cupsprinters.h answers it, tests bring their own.
namespace ramplight {

/// A printer as the printing system names it.
struct PrintQueue
{
    QString name;
    QString words; ///< "Office, by the window"; what it is and where it stands; may be empty
    bool standard = false; ///< the one that the system takes when nobody names one
    friend bool operator==(const PrintQueue&, const PrintQueue&) = default;
};

enum class PrintFault {
    NoSystem,     ///< no printing system answers
    NoSuchQueue,  ///< it knows no printer of this name
    NotAccepting, ///< the printer takes no jobs
    NotPermitted, ///< not from this account
    NotPrintable, ///< it does not print files of this kind
    NoAnswer,     ///< it stopped answering; the job may have been taken
    GaveUp,       ///< taken, and given up
    Refused,      ///< for another reason, which the words name
};

/// Why nothing is printed.
struct PrintRefusal
{
    PrintFault fault = PrintFault::Refused;
    QString words; ///< a sentence for a person: what is wrong, and what to do
};

/// A job that was taken.
struct PrintTaken
{
    int job = 0;
    /// Why it is not on paper yet, a sentence for a person ("... is out of paper ..."); it prints
    /// by itself once that is put right. Empty: nothing is in its way.
    QString waits;
};

/// Blocks; any thread, several at once.
class PrintPort
{
public:
    virtual ~PrintPort() = default;
    PrintPort() = default;
    PrintPort(const PrintPort&) = delete;
    PrintPort& operator=(const PrintPort&) = delete;

    /// In the order of their names; empty: none is set up.
    [[nodiscard]] virtual tl::expected<std::vector<PrintQueue>, PrintRefusal> queues() = 0;
    /// A whole PDF. title: what the printing system calls the job.
    [[nodiscard]] virtual tl::expected<PrintTaken, PrintRefusal>
    print(const QString& queue, const QString& title, const QByteArray& pdf) = 0;
};

} // namespace ramplight
