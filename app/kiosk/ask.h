// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
#pragma once

#include "kiosk/session.h"

#include <QObject>
#include <QtQmlIntegration>

#include <functional>

namespace ramplight {

/// One question at a time to the workshop, and what came of it. Every view that changes something
/// owns one; its invokables answer here. Screens bind `busy` to their buttons, show `words` while
/// `refused`, offer retry() when `canRetry` (the store was away: same command id, nothing can
/// happen twice), and close their sheet on done(what). GUI thread.
class Ask : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("comes from the shell")
    Q_PROPERTY(bool busy READ busy NOTIFY changed FINAL)
    Q_PROPERTY(bool refused READ refused NOTIFY changed FINAL)
    /// Stable id of the refusal, e.g. "safety-cannot-be-left"; "store" when the store failed.
    Q_PROPERTY(QString refusalId READ refusalId NOTIFY changed FINAL)
    /// What is missing and what to do; for a failed write also what was kept.
    Q_PROPERTY(QString words READ words NOTIFY changed FINAL)
    /// The list that goes with it: the holds of a refused release.
    Q_PROPERTY(QStringList details READ details NOTIFY changed FINAL)
    Q_PROPERTY(bool canRetry READ canRetry NOTIFY changed FINAL)
    /// Which action it is about, e.g. "sign-off".
    Q_PROPERTY(QString what READ what NOTIFY changed FINAL)

public:
    explicit Ask(QObject* parent = nullptr);

    [[nodiscard]] bool busy() const { return m_busy; }
    [[nodiscard]] bool refused() const { return !m_words.isEmpty(); }
    [[nodiscard]] QString refusalId() const { return m_refusalId; }
    [[nodiscard]] QString words() const { return m_words; }
    [[nodiscard]] QStringList details() const { return m_details; }
    [[nodiscard]] bool canRetry() const { return m_canRetry; }
    [[nodiscard]] QString what() const { return m_what; }

    /// The same request again, with the same command id.
    Q_INVOKABLE void retry();
    /// Takes the words away.
    Q_INVOKABLE void dismiss();

    /// Sends a request through `send`, which may be called again by retry(). While one is on its
    /// way the same one is ignored: a double tap is one touch. Another one waits for its turn, the
    /// last that was asked for; a failure drops it, since what it built on did not come about.
    template <class T>
    void send(const QString& what, const std::function<Answer<T>()>& send,
              const std::function<void(const T&)>& then);
    /// Something that never reached the workshop: bad digits, a photo that is none.
    void refuse(const QString& what, const QString& id, const QString& words);
    /// Work of another kind than a workshop command (photos, files, PINs) uses these three.
    bool begin(const QString& what, std::function<void()> again);
    /// What retry() does from here on, when only a part is left to do.
    void setAgain(std::function<void()> again) { m_again = std::move(again); }
    void succeed();
    void fail(const QString& id, const QString& words, bool canRetry);

signals:
    void changed();
    void done(const QString& what);
    void refusedWith(const QString& id, const QString& words);

private:
    void failWith(const Failure& failure);

    bool m_busy = false;
    bool m_canRetry = false;
    QString m_what;
    QString m_refusalId;
    QString m_words;
    QStringList m_details;
    std::function<void()> m_again;
    std::function<void()> m_next; ///< asked for while another was on its way
};

template <class T>
void Ask::send(const QString& what, const std::function<Answer<T>()>& send,
               const std::function<void(const T&)>& then)
{
    if (!begin(what, [this, what, send, then] { this->send<T>(what, send, then); }))
        return;
    whenReady(send(), this, [this, then](const tl::expected<T, Failure>& result) {
        if (!result) {
            failWith(result.error());
            return;
        }
        if (then)
            then(*result);
        succeed();
    });
}

/// A new command id.
[[nodiscard]] CommandId newCommandId();

} // namespace ramplight
