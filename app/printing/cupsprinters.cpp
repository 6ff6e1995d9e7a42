// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "printing/cupsprinters.h"

#include "printing/printwords.h"

#include <QDeadlineTimer>
#include <QThread>

#include <algorithm>
#include <array>
#include <memory>

#include <cups/cups.h>

namespace ramplight {

namespace {

constexpr int secondMs = 1'000;
constexpr unsigned long lookAgainMs = 150;

struct Close
{
    void operator()(http_t* http) const { httpClose(http); }
    void operator()(ipp_t* answer) const { ippDelete(answer); }
};
using Http = std::unique_ptr<http_t, Close>;
using Ipp = std::unique_ptr<ipp_t, Close>;

int giveUp(http_t* /*http*/, void* /*data*/)
{
    return 0;
}

Http connectTo(const QString& server, int patienceMs)
{
    QByteArray host = server.toLocal8Bit();
    int port = 0;
    if (host.isEmpty()) {
        host = cupsServer();
        port = ippPort();
    } else if (const auto colon = host.lastIndexOf(':'); !host.startsWith('/') && colon > 0) {
        port = host.mid(colon + 1).toInt();
        host.truncate(colon);
    } else if (!host.startsWith('/')) {
        port = ippPort();
    }
    Http http(httpConnect2(host.constData(), port, nullptr, AF_UNSPEC, cupsEncryption(), 1,
                           patienceMs, nullptr));
    if (http)
        httpSetTimeout(http.get(), double(patienceMs) / secondMs, giveUp, nullptr);
    return http;
}

PrintFault faultOf(ipp_status_t status)
{
    switch (status) {
    case IPP_STATUS_ERROR_NOT_FOUND:
    case IPP_STATUS_ERROR_GONE:
        return PrintFault::NoSuchQueue;
    case IPP_STATUS_ERROR_NOT_ACCEPTING_JOBS:
        return PrintFault::NotAccepting;
    case IPP_STATUS_ERROR_FORBIDDEN:
    case IPP_STATUS_ERROR_NOT_AUTHENTICATED:
    case IPP_STATUS_ERROR_NOT_AUTHORIZED:
        return PrintFault::NotPermitted;
    case IPP_STATUS_ERROR_DOCUMENT_FORMAT_NOT_SUPPORTED:
        return PrintFault::NotPrintable;
    case IPP_STATUS_ERROR_SERVICE_UNAVAILABLE:
    case IPP_STATUS_ERROR_TIMEOUT:
        return PrintFault::NoAnswer;
    default:
        return PrintFault::Refused;
    }
}

PrintRefusal lastRefusal(const QString& queue)
{
    return refusalOf(faultOf(cupsLastError()), queue, QString::fromUtf8(cupsLastErrorString()));
}

QByteArray uriOf(const QString& queue)
{
    std::array<char, HTTP_MAX_URI> uri{};
    httpAssembleURIf(HTTP_URI_CODING_ALL, uri.data(), static_cast<int>(uri.size()), "ipp", nullptr,
                     "localhost", 0, "/printers/%s", queue.toUtf8().constData());
    return uri.data();
}

/// Asks for some attributes of a printer, or of one of its jobs.
template <std::size_t N>
Ipp ask(http_t* http, ipp_op_t what, const QString& queue, int job,
        const std::array<const char*, N>& wanted)
{
    ipp_t* request = ippNewRequest(what);
    ippAddString(request, IPP_TAG_OPERATION, IPP_TAG_URI, "printer-uri", nullptr,
                 uriOf(queue).constData());
    if (job > 0)
        ippAddInteger(request, IPP_TAG_OPERATION, IPP_TAG_INTEGER, "job-id", job);
    ippAddString(request, IPP_TAG_OPERATION, IPP_TAG_NAME, "requesting-user-name", nullptr,
                 cupsUser());
    ippAddStrings(request, IPP_TAG_OPERATION, IPP_TAG_KEYWORD, "requested-attributes",
                  static_cast<int>(N), nullptr, wanted.data());
    return Ipp(cupsDoRequest(http, request, "/")); // deletes the request
}

struct QueueState
{
    bool accepting = false;
    bool stopped = false;
    QStringList reasons;
};

tl::expected<QueueState, PrintRefusal> stateOf(http_t* http, const QString& queue)
{
    const Ipp answer =
        ask(http, IPP_OP_GET_PRINTER_ATTRIBUTES, queue, 0,
            std::array{"printer-is-accepting-jobs", "printer-state", "printer-state-reasons"});
    if (!answer || cupsLastError() > IPP_STATUS_OK_EVENTS_COMPLETE)
        return tl::unexpected(lastRefusal(queue));
    QueueState state;
    if (ipp_attribute_t* is =
            ippFindAttribute(answer.get(), "printer-is-accepting-jobs", IPP_TAG_BOOLEAN))
        state.accepting = ippGetBoolean(is, 0) != 0;
    if (ipp_attribute_t* is = ippFindAttribute(answer.get(), "printer-state", IPP_TAG_ENUM))
        state.stopped = ippGetInteger(is, 0) == IPP_PSTATE_STOPPED;
    if (ipp_attribute_t* all =
            ippFindAttribute(answer.get(), "printer-state-reasons", IPP_TAG_KEYWORD))
        for (int i = 0; i < ippGetCount(all); ++i)
            state.reasons.append(QString::fromUtf8(ippGetString(all, i, nullptr)));
    return state;
}

/// Why a job does not come to paper yet; empty.
QString troubleOf(const QueueState& state)
{
    const QString trouble = troubleWords(state.reasons);
    return trouble.isEmpty() && state.stopped ? troubleWords({QStringLiteral("paused")}) : trouble;
}

tl::expected<int, PrintRefusal> hand(http_t* http, const QString& queue, const QString& title,
                                     const QByteArray& pdf)
{
    const QByteArray name = queue.toUtf8();
    // A page keeps its size (bar codes, A5 on larger paper) unless the paper is too small for it.
    cups_option_t* options = nullptr;
    int count = cupsAddOption("print-scaling", "auto-fit", 0, &options);
    count = cupsAddOption("sides", "one-sided", count, &options);
    const int job =
        cupsCreateJob(http, name.constData(), title.toUtf8().constData(), count, options);
    cupsFreeOptions(count, options);
    if (job == 0)
        return tl::unexpected(lastRefusal(queue));
    const auto cancelled = [&](const PrintRefusal& refusal) {
        // What is half there must not be printed.
        cupsCancelJob2(http, name.constData(), job, 0);
        return tl::unexpected(refusal);
    };
    if (cupsStartDocument(http, name.constData(), job, title.toUtf8().constData(), CUPS_FORMAT_PDF,
                          1) != HTTP_STATUS_CONTINUE)
        return cancelled(lastRefusal(queue));
    if (cupsWriteRequestData(http, pdf.constData(), static_cast<std::size_t>(pdf.size())) !=
        HTTP_STATUS_CONTINUE)
        return cancelled(refusalOf(PrintFault::NoAnswer, queue));
    if (cupsFinishDocument(http, name.constData()) > IPP_STATUS_OK_EVENTS_COMPLETE)
        return cancelled(lastRefusal(queue));
    return job;
}

} // namespace

CupsPrinters::CupsPrinters(QString server)
    : CupsPrinters(std::move(server), {})
{
}

CupsPrinters::CupsPrinters(QString server, Patience patience)
    : m_server(std::move(server))
    , m_patience(patience)
{
}

tl::expected<std::vector<PrintQueue>, PrintRefusal> CupsPrinters::queues()
{
    const Http http = connectTo(m_server, m_patience.answerMs);
    if (!http)
        return tl::unexpected(refusalOf(PrintFault::NoSystem, {}));
    cups_dest_t* all = nullptr;
    const int count = cupsGetDests2(http.get(), &all);
    if (count == 0 && cupsLastError() > IPP_STATUS_OK_EVENTS_COMPLETE &&
        cupsLastError() != IPP_STATUS_ERROR_NOT_FOUND)
        return tl::unexpected(refusalOf(PrintFault::NoSystem, {}));
    std::vector<PrintQueue> queues;
    for (int i = 0; i < count; ++i) {
        const cups_dest_t& one = all[i];
        if (one.instance != nullptr)
            continue;
        const auto option = [&one](const char* name) {
            return QString::fromUtf8(cupsGetOption(name, one.num_options, one.options)).trimmed();
        };
        QStringList words;
        for (const QString& part : {option("printer-info"), option("printer-location")})
            if (!part.isEmpty() && part != QString::fromUtf8(one.name))
                words.append(part);
        queues.push_back(
            {QString::fromUtf8(one.name), words.join(QStringLiteral(", ")), one.is_default != 0});
    }
    cupsFreeDests(count, all);
    std::ranges::sort(queues, {}, &PrintQueue::name);
    return queues;
}

tl::expected<PrintTaken, PrintRefusal>
CupsPrinters::print(const QString& queue, const QString& title, const QByteArray& pdf)
{
    const Http http = connectTo(m_server, m_patience.answerMs);
    if (!http)
        return tl::unexpected(refusalOf(PrintFault::NoSystem, queue));
    const auto before = stateOf(http.get(), queue);
    if (!before)
        return tl::unexpected(before.error());
    if (!before->accepting)
        return tl::unexpected(refusalOf(PrintFault::NotAccepting, queue));
    const auto job = hand(http.get(), queue, title, pdf);
    if (!job)
        return tl::unexpected(job.error());
    // It is taken. What keeps it from the paper often shows only now.
    for (const QDeadlineTimer until(m_patience.watchMs); !until.hasExpired();
         QThread::msleep(lookAgainMs)) {
        const Ipp answer =
            ask(http.get(), IPP_OP_GET_JOB_ATTRIBUTES, queue, *job, std::array{"job-state"});
        ipp_attribute_t* is =
            answer ? ippFindAttribute(answer.get(), "job-state", IPP_TAG_ENUM) : nullptr;
        if (is == nullptr)
            return PrintTaken{*job, {}}; // done and forgotten
        const int state = ippGetInteger(is, 0);
        if (state == IPP_JSTATE_COMPLETED)
            return PrintTaken{*job, {}};
        if (state == IPP_JSTATE_ABORTED || state == IPP_JSTATE_CANCELED)
            return tl::unexpected(refusalOf(PrintFault::GaveUp, queue));
        if (const auto now = stateOf(http.get(), queue))
            if (const QString trouble = troubleOf(*now); !trouble.isEmpty())
                return PrintTaken{*job, waitingWords(queue, trouble)};
    }
    return PrintTaken{*job, {}};
}

} // namespace ramplight
