// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Ramplight contributors
// How a review goes from one draft to another: through the words, the drawing and the stages.
#include "kiosk/speechreview.h"

#include <algorithm>

namespace ramplight {

void SpeechReview::choose(int draft)
{
    const SpokenReview* heard = review();
    if (heard == nullptr)
        return;
    if (draft < 0 || draft >= static_cast<int>(heard->decisions.size())) {
        setStage(m_stage);
        if (m_stage == Doubtful && m_left.doubtful.empty())
            setStage(firstWithWork());
        return;
    }
    m_chosen = draft;
    const auto at = static_cast<std::size_t>(draft);
    if (chosenOpen())
        m_stage = isSure(heard->round.drafts[at]) ? Sure : Doubtful;
    rebuildLists();
}

void SpeechReview::chooseInWords(int row, const QString& link)
{
    bool isNumber = false;
    const int touched = link.toInt(&isNumber);
    const int draft = isNumber && touched != m_chosen ? touched : m_words.draftAfter(m_chosen, row);
    if (draft >= 0)
        choose(draft);
}

void SpeechReview::chooseAt(const QString& placeId)
{
    const SpokenReview* heard = review();
    if (heard == nullptr)
        return;
    const int count = static_cast<int>(heard->decisions.size());
    // A finger that means the tyre finds the wheel, and the other way round.
    const PlaceId touched{placeId};
    const PlaceInfo* info = placeInfo(touched);
    const PlaceId other = info == nullptr                  ? PlaceId{}
                          : info->kind == PlaceKind::Wheel ? tyreOf(touched)
                          : info->kind == PlaceKind::Tyre  ? wheelOf(touched)
                                                           : PlaceId{};
    for (int step = 1; step <= count; ++step) {
        const int draft = (std::max(m_chosen, -1) + step + count) % count;
        const PlaceId& place = heard->round.drafts[static_cast<std::size_t>(draft)].data.place;
        if (place == touched || (!other.isEmpty() && place == other)) {
            choose(draft);
            return;
        }
    }
}

void SpeechReview::step(int by)
{
    const std::vector<int>& queue = m_stage == Sure ? m_left.sure : m_left.doubtful;
    if (queue.empty())
        return;
    const auto now = std::ranges::find(queue, m_chosen);
    const int count = static_cast<int>(queue.size());
    const int at = now == queue.end() ? 0 : static_cast<int>(now - queue.begin()) + by;
    choose(queue[static_cast<std::size_t>((at + count) % count)]);
}

} // namespace ramplight
