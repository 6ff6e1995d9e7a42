// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "printing/printport.h"

namespace ramplight {

/// The printers of CUPS, asked over IPP.
class CupsPrinters : public PrintPort
{
public:
    struct Patience
    {
        int answerMs = 8'000; ///< for one answer of the server
        int watchMs = 3'000;  ///< how long a job that was taken is watched for trouble
    };

    /// server: a host, "host:port" or the path of a socket; empty: the one of this machine, as
    /// cups-client.conf(5) and CUPS_SERVER have it.
    explicit CupsPrinters(QString server = {});
    CupsPrinters(QString server, Patience patience);

    [[nodiscard]] tl::expected<std::vector<PrintQueue>, PrintRefusal> queues() override;
    [[nodiscard]] tl::expected<PrintTaken, PrintRefusal>
    print(const QString& queue, const QString& title, const QByteArray& pdf) override;

private:
    QString m_server;
    Patience m_patience;
};

} // namespace ramplight
