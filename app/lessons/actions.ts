'use server'

import { lessonForm } from '@/lib/records/lesson/schema'
import { decideLesson } from '@/lib/records/lesson/write'
import { formAction } from '@/lib/server/action'

export const decideLessonAction = formAction('lesson.accept', lessonForm, (input, actor) =>
  decideLesson(input, actor),
)
