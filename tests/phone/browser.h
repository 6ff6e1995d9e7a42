// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include <QJsonObject>
#include <QProcess>
#include <QStringList>
#include <QTemporaryDir>

namespace ramplight::test {

/// A real browser without a window, in the size of a phone, driven over a pair of pipes by the
/// DevTools protocol. Every step that does not come about fails the test and says which.
class Browser
{
public:
    /// Empty where no Chromium is installed.
    [[nodiscard]] static QString program();

    Browser();
    ~Browser();
    Browser(const Browser&) = delete;
    Browser& operator=(const Browser&) = delete;

    /// Opens the page and waits until it has loaded. scripts: may it run any?
    void open(const QString& address, bool scripts = true);
    /// Puts files into a file field, as a person who has chosen them.
    void choose(const QString& selector, const QStringList& files);
    void click(const QString& selector);
    /// Text of everything that fits the selector, a piece for each.
    [[nodiscard]] QStringList texts(const QString& selector);
    /// Waits until so many fit it.
    [[nodiscard]] bool untilThere(const QString& selector, int count);
    /// What the browser complained of in the page: blocked by its policy, broken scripts.
    [[nodiscard]] const QStringList& complaints() const { return m_complaints; }
    /// A picture of the page as NAME.png in the folder that RAMPLIGHT_SHOTS names.
    void shoot(const QString& name);

private:
    QJsonObject call(const QString& method, const QJsonObject& parameters = {});
    [[nodiscard]] int node(const QString& selector);
    [[nodiscard]] QJsonObject next();
    void hear(const QJsonObject& message);

    QTemporaryDir m_profile;
    QProcess m_process;
    int m_toBrowser = -1;
    int m_fromBrowser = -1;
    QByteArray m_heard;
    QString m_session;
    int m_last = 0;
    bool m_loaded = false;
    QStringList m_complaints;
};

} // namespace ramplight::test
