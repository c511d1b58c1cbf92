/** The published request and response schemas: the package ships them as plain JavaScript, so the few that are used are declared here. */
declare module 'discord-api-spec/zod' {
  import type { ZodMiniType } from 'zod/mini';

  export const MessageCreateRequestSchema: ZodMiniType;
  export const MessageEditRequestPartialSchema: ZodMiniType;
  export const IncomingWebhookRequestPartialSchema: ZodMiniType;
  export const IncomingWebhookUpdateRequestPartialSchema: ZodMiniType;
  export const CreateMessageInteractionCallbackRequestSchema: ZodMiniType;
  export const UpdateMessageInteractionCallbackRequestSchema: ZodMiniType;
  export const ModalInteractionCallbackRequestSchema: ZodMiniType;
  export const ApplicationCommandAutocompleteCallbackRequestSchema: ZodMiniType;
  export const ApplicationCommandUpdateRequestSchema: ZodMiniType;
  export const ApplicationCommandCreateRequestSchema: ZodMiniType;
  export const ApplicationCommandPatchRequestPartialSchema: ZodMiniType;
  export const CreatePrivateChannelRequestSchema: ZodMiniType;

  export const MessageResponseSchema: ZodMiniType;
  export const InteractionCallbackResponseSchema: ZodMiniType;
  export const ApplicationCommandResponseSchema: ZodMiniType;
  export const PrivateApplicationResponseSchema: ZodMiniType;
  export const UserPIIResponseSchema: ZodMiniType;
  export const GuildWithCountsResponseSchema: ZodMiniType;
  export const GuildMemberResponseSchema: ZodMiniType;
  export const GuildRoleResponseSchema: ZodMiniType;
  export const GuildChannelResponseSchema: ZodMiniType;
  export const PrivateChannelResponseSchema: ZodMiniType;
  export const GatewayBotResponseSchema: ZodMiniType;
  export const PinnedMessagesResponseSchema: ZodMiniType;
  export const ErrorResponseSchema: ZodMiniType;
}
