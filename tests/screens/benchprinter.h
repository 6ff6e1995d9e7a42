// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "printing/printport.h"

#include <mutex>
#include <optional>

namespace ramplight::test {

/// The printing system of the bench: keeps what was printed, and refuses when it is told to. The
/// pool asks it, the test looks.
class BenchPrinter : public PrintPort
{
public:
    struct Printed
    {
        QString queue;
        QString title;
        QByteArray pdf;
    };

    [[nodiscard]] tl::expected<std::vector<PrintQueue>, PrintRefusal> queues() override
    {
        const std::scoped_lock lock(m_mutex);
        if (m_refusal)
            return tl::unexpected(*m_refusal);
        return std::vector<PrintQueue>{
            {QStringLiteral("hall"), {}, false},
            {QStringLiteral("office"), QStringLiteral("by the window"), true}};
    }
    [[nodiscard]] tl::expected<PrintTaken, PrintRefusal>
    print(const QString& queue, const QString& title, const QByteArray& pdf) override
    {
        const std::scoped_lock lock(m_mutex);
        if (m_refusal)
            return tl::unexpected(*m_refusal);
        m_printed.push_back({queue, title, pdf});
        return PrintTaken{static_cast<int>(m_printed.size()), m_waits};
    }

    void refuse(const std::optional<PrintRefusal>& refusal)
    {
        const std::scoped_lock lock(m_mutex);
        m_refusal = refusal;
    }
    void letWait(const QString& words)
    {
        const std::scoped_lock lock(m_mutex);
        m_waits = words;
    }
    [[nodiscard]] std::vector<Printed> printed() const
    {
        const std::scoped_lock lock(m_mutex);
        return m_printed;
    }

private:
    mutable std::mutex m_mutex;
    std::optional<PrintRefusal> m_refusal;
    QString m_waits;
    std::vector<Printed> m_printed;
};

} // namespace ramplight::test
