// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#include "cli/logging.h"

#include <spdlog/sinks/rotating_file_sink.h>
#include <spdlog/sinks/stdout_color_sinks.h>
#include <spdlog/spdlog.h>

namespace ramplight {

namespace {

constexpr std::size_t logBytes = 5U << 20U;
constexpr std::size_t logFiles = 4;

void toLog(QtMsgType type, const QMessageLogContext&, const QString& message)
{
    const std::string text = message.toStdString();
    switch (type) {
    case QtDebugMsg:
        spdlog::debug(text);
        break;
    case QtInfoMsg:
        spdlog::info(text);
        break;
    case QtWarningMsg:
        spdlog::warn(text);
        break;
    case QtCriticalMsg:
    case QtFatalMsg:
        spdlog::error(text);
        break;
    }
}

} // namespace

void startLogging(const HousePaths& paths)
{
    std::vector<spdlog::sink_ptr> sinks{std::make_shared<spdlog::sinks::stderr_color_sink_mt>()};
    if (paths.make()) {
        try {
            sinks.push_back(std::make_shared<spdlog::sinks::rotating_file_sink_mt>(
                paths.log().toStdString(), logBytes, logFiles));
        } catch (const spdlog::spdlog_ex&) { // NOLINT(bugprone-empty-catch)
            // A log that cannot be written keeps nobody from working; standard error still has it.
        }
    }
    auto logger = std::make_shared<spdlog::logger>("ramplight", sinks.begin(), sinks.end());
    logger->flush_on(spdlog::level::warn);
    spdlog::set_default_logger(std::move(logger));
    qInstallMessageHandler(toLog);
}

void startTerminalLogging()
{
    auto logger = std::make_shared<spdlog::logger>(
        "ramplight", std::make_shared<spdlog::sinks::stderr_color_sink_mt>());
    logger->set_level(spdlog::level::warn);
    spdlog::set_default_logger(std::move(logger));
}

} // namespace ramplight
